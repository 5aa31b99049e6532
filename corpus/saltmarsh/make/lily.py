"""A page of the book as LilyPond source, and what LilyPond says of where everything came to stand.

While LilyPond draws the picture it writes down the box of every object asked for, in staff spaces of its system.
"""
import subprocess
from pathlib import Path

import cv2
import numpy as np

DPI = 300
OCT = {1: ",,", 2: ",", 3: "", 4: "'", 5: "''"}
ACC = {0: "", 1: "is", -1: "es", 2: "isis", -2: "eses"}
MARK = {"~": "~", "(": "(", ")": ")", ">": "->", "'": "-.", "-": "--", "^": "\\fermata"}
BARS = {"single": "|", "double": "||", "final": "|.", "repeat-start": ".|:", "repeat-end": ":|.", "repeat-both": ":|.|:",
        "dashed": "!"}
MAJOR = {-5: "des", -4: "as", -3: "es", -2: "bes", -1: "f", 0: "c", 1: "g", 2: "d", 3: "a", 4: "e"}

HEAD = r"""\version "2.24.0"
#(set! paper-alist (cons '("pit" . (cons (* 9 in) (* 12 in))) paper-alist))
#(set-global-staff-size %(size)s)
#(define boxes (open-output-file "%(stem)s.boxes"))
#(define ((oa name) grob)
   (let* ((sys (ly:grob-system grob)) (x (ly:grob-extent grob sys X)) (y (ly:grob-extent grob sys Y)))
     (format boxes "~a\t~a\t~a\t~a\t~a\t~a\n" (hashq sys 1000000007) name (car x) (cdr x) (car y) (cdr y))
     (force-output boxes) '()))
\paper { #(set-paper-size "pit") top-margin = 11\mm bottom-margin = 9\mm left-margin = 15\mm right-margin = 14\mm
  indent = 0 ragged-right = ##f ragged-last = ##f ragged-bottom = ##f ragged-last-bottom = ##f page-count = 1
  print-page-number = ##f oddHeaderMarkup = ##f evenHeaderMarkup = ##f oddFooterMarkup = ##f evenFooterMarkup = ##f
  markup-system-spacing.padding = 1.2 score-markup-spacing.padding = 2.4 score-markup-spacing.basic-distance = 9
  scoreTitleMarkup = ##f tagline = ##f }
\layout {
  \context { \Score
    \override BarLine.output-attributes = #(oa "bar") \override StaffSymbol.output-attributes = #(oa "staff")
    \override Clef.output-attributes = #(oa "clef") \override KeySignature.output-attributes = #(oa "key")
    \override TimeSignature.output-attributes = #(oa "time") \override KeyCancellation.output-attributes = #(oa "key")
    \override RehearsalMark.self-alignment-X = #LEFT \override RehearsalMark.font-size = #2
    \override BarNumber.font-size = #-1 \override MetronomeMark.padding = #1.2 \override MetronomeMark.font-size = #0.5
    \override MultiMeasureRestNumber.font-size = #1 \override SegnoMark.self-alignment-X = #LEFT
    \override CodaMark.self-alignment-X = #LEFT \override CodaMark.break-visibility = #'#(#f #t #t)
    \override SegnoMark.break-visibility = #'#(#f #t #t)
    \override NonMusicalPaperColumn.line-break-permission = ##f
    skipBars = ##t
  } }
"""


def quote(s):
    return '"%s"' % s.replace("\\", "\\\\").replace('"', '\\"')


def note(n):
    if n.step < 0:
        s = "r"
    else:
        s = "cdefgab"[n.step] + ACC[n.alter] + OCT[n.octave]
    s += str(n.dur) + "." * n.dots + "".join(MARK[m] for m in n.marks)
    return s + ("\\" + n.dyn if n.dyn else "")


def word(bar, i, text, where, size=""):
    return '<>-\\tweak output-attributes #(oa "word:%s:%d") %s\\markup { %s %s }' % (
        bar.id, i, "^" if where == "above" else "_", size or "\\bold", quote(text))


def music(bar, follow):
    """the notes of one bar; `follow`: how many bar-repeat signs come after it"""
    if bar.kind in ("rest", "multi-rest") and not bar.cue:
        limit = 10 if bar.block else 1
        s = "\\set Staff.restNumberThreshold = 1 \\override MultiMeasureRest.expand-limit = #%d R1*%d/%d" % (
            limit, bar.now[0] * bar.count, bar.now[1])
        return s + ("\\fermata" if "fermata" in bar.signs else "")
    if bar.cue:
        name = '^\\markup { \\italic \\small %s }' % quote(bar.cue_name) if bar.cue_name else ""
        cue = [note(n) for n in bar.cue]
        cue[0] += name
        return ("<< { \\voiceOne \\magnifyMusic 0.63 { %s } } "
                "\\new Voice { \\voiceTwo \\override MultiMeasureRest.staff-position = #-4 R1*%d/%d } >> \\oneVoice") % (" ".join(cue), bar.now[0], bar.now[1])
    notes = [note(n) for n in bar.notes]
    if bar.hair:
        notes[0] += "\\" + bar.hair
        notes[-1] += "\\!"
    s = " ".join(notes)
    if follow:
        s = "\\repeat percent %d { %s }" % (follow + 1, s)
    if bar.pickup:
        s = "\\partial %d*%d %s" % (bar.pickup.denominator, bar.pickup.numerator, s)
    return s


def signs(bar, first_of_block):
    """everything that stands at the beginning of a bar"""
    s = []
    if bar.key is not None:
        s.append("\\key %s \\major" % MAJOR[bar.key])
    if bar.meter:
        s.append("\\time %d/%d" % bar.meter)
    if bar.tempo or bar.mm:
        mm = " %d%s = %d" % (bar.mm[0], "." * bar.mm[1], bar.mm[2]) if bar.mm else ""
        s.append('\\once \\override Score.MetronomeMark.output-attributes = #(oa "word:%s:0") \\tempo %s%s' % (
            bar.id, quote(bar.tempo) if bar.tempo else "", mm))
    if bar.reh:
        text, enc = bar.reh
        mark = {"box": "\\box ", "circle": "\\circle ", "none": ""}[enc]
        s.append('\\once \\override Score.RehearsalMark.output-attributes = #(oa "reh") \\mark \\markup { %s\\bold %s }' % (
            mark and "\\override #'(box-padding . 0.35) " + mark, quote(text)))
    if "segno" in bar.signs:
        s.append("\\segnoMark \\default")
    if "coda" in bar.signs:
        s.append("\\codaMark \\default")
    for i, w in enumerate(bar.above):
        s.append(word(bar, i + 1, w, "above"))
    for i, w in enumerate(bar.below):
        s.append(word(bar, i + 20, w, "below", "\\italic"))
    return " ".join(s)


def after(bar):
    s = []
    if "caesura" in bar.signs:
        s.append("\\once \\override BreathingSign.text = \\markup { \\musicglyph \"scripts.caesura.straight\" } \\breathe")
    if bar.to_coda:
        s.append('\\tweak output-attributes #(oa "word:%s:30") \\textEndMark \\markup { \\bold "To Coda" \\small \\musicglyph "scripts.coda" }' % bar.id)
    if bar.jump:
        s.append('\\tweak output-attributes #(oa "word:%s:31") \\tweak direction #UP \\textEndMark \\markup { \\bold %s }' % (bar.id, quote(bar.jump)))
    return " ".join(s)


def score(block):
    out = ["\\clef bass \\set Score.currentBarNumber = #%d" % block.first_number]
    first = block.systems[0][0]
    if first.key is None:
        out.append("\\key %s \\major" % MAJOR[block.first_key])
    if first.meter is None:
        out.append("\\once \\omit Staff.TimeSignature \\time %d/%d" % block.first_meter)
    if block.first_number > 1:
        out.append("\\set Score.barNumberVisibility = #first-bar-number-invisible-save-broken-bars")
        out.append("\\once \\override Score.BarNumber.break-visibility = ##(#t #t #t)")
        out.append("\\bar \"\"")
    volta = None
    for si, system in enumerate(block.systems):
        for bi, bar in enumerate(system):
            if bar.kind == "bar-repeat":
                continue
            follow = 0
            while bi + follow + 1 < len(system) and system[bi + follow + 1].kind == "bar-repeat":
                follow += 1
            last = system[bi + follow]
            cmds = []
            if bar.ending != volta:
                if volta:
                    cmds.append("(volta #f)")
                if bar.ending:
                    cmds.append('(volta "%s")' % ",".join("%d." % e for e in bar.ending))
                volta = bar.ending
            if cmds:
                out.append("\\set Score.repeatCommands = #'(%s)" % " ".join(cmds))
            before = block.systems[si - 1][-1].end if si else ""
            if bar.start_repeat and bi == 0 and before != "repeat-end":
                out.append("\\bar \".|:-|\"" if si else "\\bar \".|:\"")
            out.append("  " + signs(bar, si == 0 and bi == 0) + " " + music(bar, follow) + " " + after(last))
            nxt = system[bi + follow + 1] if bi + follow + 1 < len(system) else None
            turn = nxt is None and si + 1 < len(block.systems) and block.systems[si + 1][0].start_repeat
            if last.end == "repeat-end" and turn:
                out.append("\\bar \":|.|:\"")
            elif last.end != "single" and not (nxt is None and last.end in ("repeat-start",)):
                out.append("\\bar \"%s\"" % BARS[last.end])
            else:
                out.append("|")
        out.append("\\set Score.repeatCommands = #'((volta #f))" if volta and si == len(block.systems) - 1 else "")
        if si + 1 < len(block.systems):
            out.append("\\break")
    return "\\score { \\new Staff { %s } \\layout { } }\n" % "\n".join(out)


def source(page, size, stem):
    head = "\\markup { \\fill-line { %s } }\n" % " ".join(
        ['"– %d –"' % page.index, '\\italic "Saltmarsh"', '\\bold "BASS"'] if page.index % 2 == 0
        else ['\\bold "BASS"', '\\italic "Saltmarsh"', '"– %d –"' % page.index])
    out = [HEAD % dict(size=size, stem=stem), head]
    for b in page.blocks:
        if b.tacet:
            out.append('\\markup { \\vspace #0.6 } \\markup { \\fill-line { \\bold \\large \\box "No. %s" \\larger \\bold %s \\bold \\larger "TACET" } } \\markup { \\vspace #0.3 }\n' % (
                b.number, quote(b.title)))
            continue
        if b.heading:
            out.append('\\markup { \\vspace #0.4 } \\markup { \\fill-line { \\bold \\large \\box "No. %s" \\larger \\bold %s \\null } }\n' % (b.number, quote(b.title)))
        out.append(score(b))
    return "".join(out)


def engrave(page, folder, size=20):
    """-> (path of the PNG, systems); a system: staff x0, x1 and five ys, bars [(middle, left, right)], left (where its first
    bar begins), words {key: box}; all in pixels of the PNG"""
    folder = Path(folder)
    stem = "lily-%02d" % page.index
    (folder / (stem + ".ly")).write_text(source(page, size, stem), encoding="utf8")
    r = subprocess.run(["lilypond", "--loglevel=ERROR", "-dresolution=%d" % DPI, "--png", "-o", stem, stem + ".ly"], cwd=folder,
                       capture_output=True, text=True)
    if r.stderr.strip():
        print(r.stderr)
    r.check_returncode()
    png = folder / (stem + ".png")
    return png, geometry(folder / (stem + ".boxes"), cv2.imread(str(png), cv2.IMREAD_GRAYSCALE), size / 4 / 72.27 * DPI)


def staves(img):
    """the five line heights of every staff of a clean page (drawn over most of its width), read off the picture"""
    rows = np.flatnonzero((img < 128).mean(1) > 0.8)
    groups = np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1)
    ys = [float(g.mean()) + 0.5 for g in groups]
    assert len(ys) % 5 == 0, "%d staff lines" % len(ys)
    return [ys[i:i + 5] for i in range(0, len(ys), 5)]


def strokes(img, ys, x0, x1):
    """the upright strokes of a barline between two heights: where the ink goes from the top line to the bottom line"""
    a, b = int(x0) - 4, int(x1) + 5
    cols = np.flatnonzero((img[int(ys[0]) + 1:int(ys[4]), a:b] < 128).all(0)) + a
    assert len(cols), "no stroke at %.0f" % x0
    return float(cols[0]), float(cols[-1]) + 1


def geometry(dump, img, space):
    """what LilyPond wrote down about its objects (staff spaces, from the staff's left end and its system's middle), tied to
    the picture by the staff lines; barlines must be found in the ink where LilyPond says they are"""
    systems = {}
    for line in dump.read_text(encoding="utf8").splitlines():
        key, name, *box = line.split("\t")
        systems.setdefault(key, []).append((name, [float(v) for v in box]))
    found = staves(img)
    assert len(found) == len(systems), "%d systems said, %d seen" % (len(systems), len(found))
    out = []
    margin = 15 / 25.4 * DPI
    for ys, grobs in zip(found, systems.values()):
        staff = next(b for n, b in grobs if n == "staff")
        middle = (staff[2] + staff[3]) / 2
        px = lambda x: margin + x * space
        py = lambda y: (ys[0] + ys[4]) / 2 - (y - middle) * space
        bars = sorted(strokes(img, ys, px(b[0]), px(b[1])) for n, b in grobs if n == "bar" and b[1] > b[0])
        lefts = sorted(px(b[1]) for n, b in grobs if n in ("clef", "key"))
        first = next(b for b in bars if b[0] > lefts[0])
        lefts = [v for v in lefts if v < first[1]]
        out.append(dict(
            x0=px(staff[0]), x1=px(staff[1]), ys=ys, bars=[((a + b) / 2, a, b) for a, b in bars], left=max(lefts),
            words={n[5:]: [px(b[0]), py(b[3]), px(b[1]), py(b[2])] for n, b in grobs if n.startswith("word:")}))
    return out
