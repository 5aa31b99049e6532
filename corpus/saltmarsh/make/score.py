"""The small language the Saltmarsh book is written in: bars and notes.

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
