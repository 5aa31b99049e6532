"""The small language the Saltmarsh book is written in: bars, notes, and bass patterns over chords.

A note is written `g2/4` (pitch, octave, length); length and octave hold until others are given. Suffixes: ~ tie, ( ) slur,
> accent, ' staccato, - tenuto, ^ fermata. `r` is a rest, `!mf` a dynamic before the next note.
Written pitch: the open E string of the double bass is e2.
"""
import re
from dataclasses import dataclass, field
from fractions import Fraction

LETTERS = "cdefgab"
SEMI = [0, 2, 4, 5, 7, 9, 11]


@dataclass
class Note:
    step: int = -1  # 0..6, -1 is a rest
    alter: int = 0
    octave: int = 0
    dur: int = 4
    dots: int = 0
    marks: str = ""
    dyn: str = ""

    @property
    def length(self):
        base = Fraction(1, self.dur)
        return base * (2 - Fraction(1, 2**self.dots))


TOKEN = re.compile(r"^(r|[a-g])(##|#|bb|b|)(\d?)(?:/(\d+)(\.*))?([~()>'^-]*)$")


def parse(text):
    notes, dur, dots, dyn, octave = [], 4, 0, "", 2
    for tok in text.split():
        if tok.startswith("!"):
            dyn = tok[1:]
            continue
        m = TOKEN.match(tok)
        if not m:
            raise ValueError("not a note: %r in %r" % (tok, text))
        if m[4]:
            dur, dots = int(m[4]), len(m[5])
        octave = int(m[3] or octave)
        alter = {"": 0, "#": 1, "##": 2, "b": -1, "bb": -2}[m[2]]
        step = -1 if m[1] == "r" else LETTERS.index(m[1])
        notes.append(Note(step, alter, octave, dur, dots, m[6], dyn))
        dyn = ""
    return notes


@dataclass
class Bar:
    kind: str = "music"  # music, rest, multi-rest, bar-repeat
    notes: list = field(default_factory=list)
    count: int = 1
    block: bool = False  # old block rest
    meter: tuple = None  # a signature printed here
    key: int = None  # a key printed here, sharps positive
    end: str = "single"
    start_repeat: bool = False
    reh: tuple = None  # (text, enclosure)
    tempo: str = None
    mm: tuple = None  # (unit, dots, beats a minute)
    above: list = field(default_factory=list)
    below: list = field(default_factory=list)
    signs: list = field(default_factory=list)
    to_coda: bool = False
    jump: str = None
    ending: list = None
    times: int = None
    hair: str = None
    cue: list = None
    cue_name: str = None
    pickup: Fraction = None
    label: str = None
    # filled in by `number_bars`
    number: int = 0
    now: tuple = (4, 4)
    key_now: int = 0
    id: str = ""


def _bar(kind, kw):
    kw = dict(kw)
    for k in ("above", "below", "signs"):
        if isinstance(kw.get(k), str):
            kw[k] = [kw[k]]
    if isinstance(kw.get("reh"), str):
        kw["reh"] = (kw["reh"], "box")
    return Bar(kind=kind, **kw)


def B(text, **kw):
    """a bar of music"""
    return _bar("music", dict(kw, notes=parse(text)))


def R(count=1, **kw):
    """a bar of rest, or many"""
    return _bar("rest" if count == 1 else "multi-rest", dict(kw, count=count))


def P(**kw):
    """play the bar before once more (bar-repeat sign)"""
    return _bar("bar-repeat", kw)


def C(text, name, **kw):
    """a bar of rest with another player's line in cue-size notes over it"""
    return _bar("rest", dict(kw, cue=parse(text), cue_name=name))


# ---------------------------------------------------------------- chords and patterns
def pitch(step, alter, octave):
    return LETTERS[step] + {0: "", 1: "#", -1: "b", 2: "##", -2: "bb"}[alter] + str(octave)


def up(root, letters, semis):
    step, alter, octave = root
    s2 = (step + letters) % 7
    o2 = octave + (step + letters) // 7
    have = 12 * (o2 - octave) + SEMI[s2] - SEMI[step] - alter
    return (s2, semis - have, o2)


def chord(name):
    """-> root, third, fifth, seventh as pitches from the lowest root the instrument has"""
    m = re.match(r"^([A-G])([#b]?)(m7b5|m7|m|maj7|7|dim|6|)$", name)
    step = LETTERS.index(m[1].lower())
    alter = {"": 0, "#": 1, "b": -1}[m[2]]
    octave = 2
    if SEMI[step] + alter < 4:  # below the open E
        octave = 3
    root = (step, alter, octave)
    minor = m[3].startswith("m") and m[3] != "maj7" or m[3] == "dim"
    third = up(root, 2, 3 if minor else 4)
    fifth = up(root, 4, 6 if m[3] in ("dim", "m7b5") else 7)
    seventh = up(root, 6, 11 if m[3] == "maj7" else 9 if m[3] == "dim" else 10)
    if m[3] in ("", "6", "m"):
        seventh = up(root, 5, 9)
    return root, third, fifth, seventh


def low(p):
    """an octave down where the instrument has the note"""
    s, a, o = p
    return (s, a, o - 1) if (o - 1) * 12 + SEMI[s] + a >= 28 else p


def lead(cur, nxt):
    """a half step below or above the next root, whichever is nearer to where we are"""
    r = chord(nxt)[0]
    d = lambda p: 12 * p[2] + SEMI[p[0]] + p[1]
    cands = [c for c in (up((r[0], r[1], r[2] - 1), 6, 11), up(r, 1, 1)) if abs(c[1]) < 2 and d(c) >= 28]
    return min(cands, key=lambda c: abs(d(c) - d(cur)))


def walk(names):
    """four quarters a bar over a list of chords, one a bar; two chords in a bar as 'C F'"""
    bars = names
    out = []
    for i, n in enumerate(bars):
        nxt = bars[(i + 1) % len(bars)].split()[0]
        parts = n.split()
        if len(parts) == 2:
            a, b = chord(parts[0]), chord(parts[1])
            seq = [a[0], low(a[2]), b[0], lead(b[0], nxt)]
        else:
            r, t, f, s = chord(n)
            seq = [[r, t, f], [r, f, t], [r, f, s], [r, low(f), t]][i % 4]
            seq = seq + [lead(seq[-1], nxt)]
        out.append(" ".join(pitch(*p) for p in seq))
    return out


def two(names, style=0):
    """two-feel: root and fifth"""
    out = []
    for i, n in enumerate(names):
        parts = n.split()
        a = chord(parts[0])
        b = chord(parts[1])[0] if len(parts) == 2 else low(a[2])
        ra, rb = pitch(*a[0]), pitch(*b)
        if style == 1 and i % 2:
            out.append("%s/4. %s/8 %s/4 %s" % (ra, ra, rb, rb))
        elif style == 2:
            out.append("%s/4 r %s r" % (ra, rb))
        elif style == 3:
            out.append("%s/4. %s/8 %s/4 %s" % (ra, rb, rb, pitch(*a[1])))
        else:
            out.append("%s/2 %s" % (ra, rb))
    return out


def eighths(names, push=True):
    """driving eighth notes"""
    out = []
    for i, n in enumerate(names):
        parts = n.split()
        a = chord(parts[0])
        r, f = pitch(*a[0]), pitch(*low(a[2]))
        if len(parts) == 2:
            b = pitch(*chord(parts[1])[0])
            out.append("%s/8 %s %s %s %s %s %s %s" % (r, r, r, r, b, b, b, b))
        elif push and i % 2:
            out.append("%s/8> r %s %s r %s %s %s" % (r, r, f, r, f, pitch(*low(a[3]))))
        else:
            out.append("%s/4 %s/8 %s r %s %s %s" % (r, r, r, r, f, r))
    return out


def six(names, style=0):
    """6/8 in two"""
    out = []
    for i, n in enumerate(names):
        parts = n.split()
        a = chord(parts[0])
        b = chord(parts[1])[0] if len(parts) == 2 else low(a[2])
        ra, rb, t = pitch(*a[0]), pitch(*b), pitch(*a[1])
        if style == 1:
            out.append("%s/4 %s/8 %s/4 %s/8" % (ra, ra, rb, t))
        elif style == 2:
            out.append("%s/8 r %s %s r %s" % (ra, t, rb, rb))
        else:
            out.append("%s/4. %s" % (ra, rb))
    return out


def three(names, style=0):
    out = []
    for i, n in enumerate(names):
        a = chord(n)
        r, f, t = pitch(*a[0]), pitch(*low(a[2])), pitch(*a[1])
        out.append([r + "/2.", "%s/4 %s %s" % (r, t, f), "%s/2 %s/4" % (r, f), "%s/4 r r" % r][(i + style) % 4 if style < 4 else 3])
    return out


def bars(texts, first=None, last=None, each=None):
    """bars from texts; `first` and `last` are keyword dictionaries for the outer bars"""
    out = [B(t) for t in texts]
    for i, kw in (each or {}).items():
        out[i] = B(texts[i], **kw)
    if first is not None:
        out[0] = B(texts[0], **first)
    if last is not None:
        out[-1] = B(texts[-1], **last)
    return out


# ---------------------------------------------------------------- the book
@dataclass
class Block:
    """some systems of one musical number on one page; with no systems: a line of text (a tacet number)"""
    number: str
    title: str
    systems: list
    heading: bool = True
    tacet: bool = False
    sub: str = ""


@dataclass
class Page:
    index: int
    engraver: str
    kind: str  # clean, scan or photo
    blocks: list
    face: str = ""
    options: dict = field(default_factory=dict)  # for the engraver
    photo: dict = field(default_factory=dict)  # for the photograph


def length(bar):
    return bar.pickup if bar.pickup else Fraction(bar.now[0], bar.now[1])


def number_bars(pages):
    """meters, keys and bar numbers carried along; lengths checked. -> all bars in order"""
    out, state = [], {}
    for page in pages:
        for block in page.blocks:
            st = state.setdefault(block.number, dict(n=1, meter=(4, 4), key=0, prev=None))
            block.first_number, block.first_meter, block.first_key = st["n"], st["meter"], st["key"]
            for system in block.systems:
                for bar in system:
                    if bar.meter:
                        st["meter"] = bar.meter
                    if bar.key is not None:
                        st["key"] = bar.key
                    bar.now, bar.key_now = st["meter"], st["key"]
                    if bar.pickup:
                        bar.number = 0
                    elif bar.label:
                        bar.number = st["n"] - 1
                    else:
                        bar.number = st["n"]
                        st["n"] += bar.count
                    out.append(bar)
                    bar.id = "b%d" % len(out)
                    for what in (bar.notes, bar.cue):
                        if what:
                            have = sum(n.length for n in what)
                            assert have == length(bar), "No. %s bar %s: %s, needs %s" % (block.number, bar.number, have, length(bar))
                    if bar.start_repeat and st["prev"] is not None and system[0] is not bar:
                        p = st["prev"]
                        p.end = "repeat-both" if p.end in ("repeat-end", "repeat-both") else "repeat-start"
                    st["prev"] = bar
    return out


def silence(bar):
    """-> silent beats at the start and the end of a bar with music"""
    if bar.kind != "music":
        return 0, 0
    a = b = Fraction(0)
    for n in bar.notes:
        if n.step >= 0:
            break
        a += n.length
    for n in reversed(bar.notes):
        if n.step >= 0:
            break
        b += n.length
    return a * bar.now[1], b * bar.now[1]
