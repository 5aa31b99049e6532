"""Strips that look written by hand, drawn stroke by stroke: one invented writer a strip.

Each writer has a pen, a slant, a wobble and habits (heads as blobs or ticks, barlines too long or too short, strokes before the
clef). Everything is in staff spaces: x from the staff's left end, y down from the middle line. Drawn at 16 px a space and
returned as store.py returns strips of pages: gray at 8 px a space with two spaces around.
"""
import cv2
import numpy as np

from strips import LINES
from writer import Writer

WORDS = ["poco a poco", "cresc.", "dim.", "rit.", "a tempo", "Allegro", "Andante", "Slow", "Swing", "D.C. al Fine", "D.S. al Coda",
         "To Coda", "Fine", "vamp", "safety", "tacet", "segue", "V.S.", "arco", "pizz.", "legato", "espr.", "solo", "Bass", "play 2nd x",
         "on cue", "mute", "open", "leggero", "marc.", "rall.", "Tempo I", "Waltz", "Bright 2", "colla voce", "dolce"]


def draw(rng, fonts):
    """-> (gray strip at 8 px a space with slack, label)"""
    w = Writer(rng, fonts)
    r, W = rng, w.width
    pen, uneven = r.uniform(0.04, 0.14), r.choice([0.02, 0.02, 0.1])
    for k in range(-2, 3):
        at = k + r.normal(0, uneven)
        w.stroke([(0, at), (W / 2, k + r.normal(0, uneven)), (W, at + r.normal(0, uneven / 2))], pen, 0)
    if r.random() < 0.6:  # printed paper: lines paler than the ink
        w.img = np.maximum(w.img, np.uint8(r.uniform(20, 130)))
    x = 0.1
    if r.random() < 0.25:
        w.bar_stroke(0)
        if r.random() < 0.4:
            w.bar_stroke(r.uniform(0.4, 0.9))
    x = w.clef(r.uniform(0.2, 1.6)) if r.random() < 0.95 else 1.0
    x = w.key(x, int(r.integers(0, 6)) if r.random() < 0.7 else 0)
    if r.random() < 0.25:
        x = w.meter(x + 0.4)
    if r.random() < 0.2:
        w.text(str(r.integers(2, 300)), r.uniform(-1, 1), r.uniform(-3.2, -2.4), r.uniform(0.9, 1.5), "bar-number")
    if r.random() < 0.1:
        w.barline(x + 0.8, "repeat-start")
        x += 2.5
    end = W - (0 if r.random() < 0.6 else r.uniform(0.5, 20))
    bars = max(1, int((end - x) / (r.uniform(3.4, 8) if r.random() < 0.15 else r.uniform(7, 24))))  # now and then chains of one-note bars
    cuts = np.cumsum(r.dirichlet(np.full(bars, r.uniform(2, 12)))) * (end - x) + x
    texts = {}
    if len(cuts) > 2 and r.random() < 0.3:  # endings over bars from `first` on, one after another
        n = int(r.integers(1, len(cuts)))
        for k, t in enumerate([["1.", "2."], ["1", "2"], ["1.2.", "3."], ["1.-3.", "4."], ["2."]][r.integers(0, 5)]):
            if n < len(cuts):
                to = min(len(cuts) - 1, n + int(r.integers(0, 3)))
                texts[n] = (t, to)
                n = to + 1
    for i, b in enumerate(cuts):
        last = i == len(cuts) - 1
        if i in texts:
            w.ending((x if i == 0 else cuts[i - 1]) + r.uniform(0, 0.6), cuts[texts[i][1]] - r.uniform(0, 0.6), texts[i][0])
        elif r.random() < 0.07:
            (w.coda if r.random() < 0.55 else w.segno)(x + r.uniform(0, 2), r.uniform(-6.5, -4))
        elif r.random() < 0.06:
            w.fermata((x + b) / 2 + r.uniform(-2, 2), r.uniform(-5, -3))
        if r.random() < 0.06:
            w.caesura(b - r.uniform(1.2, 2.2))
        if b - x > 4 and r.random() < 0.12:
            w.empty_bar(x + 0.5, b - 0.5)
        elif b - x > 5 and r.random() < 0.03:
            w.stroke([((x + b) / 2 - 1, 1), ((x + b) / 2 + 1, -1)], 0.35)
            w.blob((x + b) / 2 - 0.9, -0.5, 0.16, 0.16)
            w.blob((x + b) / 2 + 0.9, 0.5, 0.16, 0.16)
            w.box("bar-repeat", (x + b) / 2 - 1.1, -1.1, (x + b) / 2 + 1.1, 1.1)
        else:
            at = x + r.uniform(0.6, 1.4)
            while at < b - 1.6:
                step = min(b - 0.7 - at, r.uniform(1.4, 8) * (w.packed < 1.7 and 1.3 or 1))
                if step < 1.2:
                    break
                if r.random() < 0.2:
                    w.short_rest(at + 0.5)
                    step = 1.8
                else:
                    w.notes(at, at + step)
                at += step + r.uniform(0.1, 0.9) * (w.packed / 1.7)
        if r.random() < 0.07:
            s = r.choice(list("ABCDEFGHIJKLMNOPQR")) if r.random() < 0.6 else str(r.integers(1, 200))
            y, size = r.uniform(-4.6, -2.9), r.uniform(1.3, 2.2)
            e = w.text(s, x, y, size)
            if e > x and r.random() < 0.8:
                w.stroke([(x - 0.4, y + 0.4), (e + 0.4, y + 0.4), (e + 0.4, y - size - 0.4), (x - 0.4, y - size - 0.4), (x - 0.4, y + 0.4)])
                w.box("rehearsal", x - 0.4, y - size - 0.4, e + 0.4, y + 0.4)
            elif e > x:
                w.box("rehearsal", x, y - size, e, y)
        elif r.random() < 0.08:
            w.text(str(r.choice(WORDS)), x + 0.5, r.choice([r.uniform(-5, -3.5), r.uniform(4.2, 6.5)]), r.uniform(0.9, 1.6), "word")
        elif r.random() < 0.15:
            w.text(str(r.choice(["p", "f", "pp", "ff", "mf", "sfp", "sf", "fp"])), x + 1, r.uniform(4, 5.5), r.uniform(0.8, 1.4))
        if r.random() < 0.1:
            y, d = r.uniform(3.5, 5), r.uniform(0.2, 0.5)
            w.stroke([(x, y), (b, y - d)], w.pen * 0.8)
            w.stroke([(x, y), (b, y + d)], w.pen * 0.8)
        kind = "single"
        if r.random() < (0.5 if last else 0.12):
            kind = str(r.choice(LINES, p=[0.1, 0.25, 0.25, 0.02, 0.3, 0.03, 0.05] if last else [0.1, 0.35, 0.02, 0.2, 0.2, 0.08, 0.05]))
        if not last or r.random() < 0.9:
            w.barline(b, kind)
        x = b + (0.9 if kind != "single" else 0.3)
        if not last and b - x < -0.2 and r.random() < 0.03:
            x = w.meter(x + 0.5)
    g = cv2.resize(w.img[:, :w.img.shape[1] // 2 * 2], None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA)
    return g, dict(page="hand", engraver="hand", face="hand", held=False, lines=w.lines, boxes=w.boxes, spans=w.spans, sounds=w.sounds, vague=w.head in ("open", "none"))


def many(args):
    """n strips, half of them with a piece of another system over or under them"""
    seed, n, fonts = args
    rng = np.random.default_rng(seed)
    out = [draw(rng, fonts) for _ in range(n)]
    plain = [g.copy() for g, _ in out]
    for g, _ in out:
        for side in (-1, 1):
            if rng.random() < 0.65:
                other = plain[rng.integers(0, n)]
                w, d = min(g.shape[1], other.shape[1]), int(rng.uniform(88, 140))
                a, b = (g[:-d, :w], other[d:, :w]) if side < 0 else (g[d:, :w], other[:-d, :w])
                np.minimum(a, b, out=a)
    return out
