"""More signs on strips of made pages: marks, words, counts, bar numbers and endings in many typefaces, counters that mean nothing,
and staves whose thick bar is gone. Placed where the strip is blank, so that labels stay true.
"""
import cv2
import numpy as np

import lettering
from forms import FINE, K, caesura, ending, gather, navigation, sign, title
from strips import SLACK, SOUNDS


class Sheet:
    def __init__(self, r, gray, label, faces):
        self.r, self.g, self.faces = r, gray.copy(), faces
        self.lines = [list(l) for l in label["lines"]]
        self.boxes = [list(b) for b in label["boxes"]]
        self.spans = [list(p) for p in label.get("spans", [])]
        self.sounds = [list(p) for p in label["sounds"]] if "sounds" in label else None
        self.sum = None

    def blank(self, x0, y0, x1, y1):
        """no ink in the rectangle (strip coordinates), inside the image"""
        x0, y0, x1, y1 = (int(round(v)) + SLACK for v in (x0, y0, x1, y1))
        if x0 < 0 or y0 < 0 or x1 >= self.g.shape[1] or y1 >= self.g.shape[0] or x1 <= x0 or y1 <= y0:
            return False
        if self.sum is None:
            self.sum = cv2.integral((self.g < 200).astype(np.uint8))
        s = self.sum
        return s[y1, x1] - s[y0, x1] - s[y1, x0] + s[y0, x0] == 0

    def wipe(self, x0, y0, x1, y1):
        x0, y0, x1, y1 = (int(round(v)) + SLACK for v in (x0, y0, x1, y1))
        self.g[max(0, y0):max(0, y1), max(0, x0):max(0, x1)] = 255
        self.sum = None

    def text(self, s, size):
        """gray image of text `size` spaces high, in strip pixels, or None"""
        face = self.faces[self.r.integers(0, len(self.faces))]
        a = lettering.ink(s, face, max(8, int(size * 8 * FINE * 1.35)), self.r)
        return None if a is None else self.shrink(np.pad(a, 2, constant_values=255))

    def shrink(self, a):
        h, w = a.shape
        a = np.pad(a, ((0, -h % FINE), (0, -w % FINE)), constant_values=255)
        return cv2.resize(a, (a.shape[1] // FINE, a.shape[0] // FINE), interpolation=cv2.INTER_AREA)

    def paste(self, img, cx, bottom, kind=None, gap=2):
        """puts img down if there is room -> done"""
        h, w = img.shape
        x0, y0 = int(round(cx - w / 2)), int(round(bottom - h))
        if not self.blank(x0 - gap, y0 - gap, x0 + w + gap, y0 + h + gap):
            return False
        v = self.g[y0 + SLACK:y0 + h + SLACK, x0 + SLACK:x0 + w + SLACK]
        np.minimum(v, img, out=v)
        self.sum = None
        if kind:
            self.boxes.append([K[kind], x0 + w / 2, y0 + h / 2, w, h])
        return True

    def settle(self, img, cx, kind, above=True, gap=2):
        """tries heights outwards from the staff"""
        start = self.r.uniform(48, 66) if above else 112 + img.shape[0] + self.r.uniform(0, 16)
        for d in range(0, 40, 4):
            if self.paste(img, cx, start - d if above else start + d, kind, gap):
                return True
        return False


def mark(sh):
    """a rehearsal mark over a barline or the system's start; bare ones are large"""
    r = sh.r
    t = str(r.choice(list("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))) if r.random() < 0.6 else str(lettering.number(r))
    if r.random() < 0.12 and t.isalpha():
        t += t.lower() if r.random() < 0.6 else str(r.integers(1, 4))
    bare = r.random() < 0.55
    img = sh.text(t, r.uniform(1.4, 3.0) if bare else r.uniform(1.0, 2.6))
    if img is None:
        return
    if not bare:
        p = int(r.uniform(2, 6))
        img = np.pad(img, p, constant_values=255)
        big = cv2.resize(img, None, fx=FINE, fy=FINE, interpolation=cv2.INTER_LINEAR)
        h, w = big.shape
        pen = max(2, int(r.uniform(0.07, 0.25) * 8 * FINE))
        if r.random() < 0.65:
            cv2.rectangle(big, (pen // 2, pen // 2), (w - 1 - pen // 2, h - 1 - pen // 2), 0, pen)
        else:
            s = int(max(h, w) * 1.12)
            out = np.full((s, s), 255, np.uint8)
            out[(s - h) // 2:(s - h) // 2 + h, (s - w) // 2:(s - w) // 2 + w] = big
            cv2.circle(out, (s // 2, s // 2), s // 2 - pen, 0, pen, cv2.LINE_AA)
            big = out
        img = sh.shrink(big)
    xs = [l[0] for l in sh.lines[:-1]]
    x = r.choice(xs) if xs and r.random() < 0.85 else r.uniform(30, 70)
    off = r.uniform(-4, 14) if r.random() < 0.75 else r.uniform(14, 75)  # after a change of key the mark stands far from the barline
    if not sh.settle(img, x + off, "rehearsal", True, int(r.integers(0, 3))) or r.random() > 0.45:
        return
    k, cx, cy, w, h = sh.boxes[-1]  # a tempo close beside it
    img = sh.text(lettering.phrase(r), r.uniform(0.9, 1.7))
    if img is not None:
        sh.paste(img, cx + w / 2 + r.uniform(0, 7) + img.shape[1] / 2, cy + h / 2 - r.uniform(0, max(1, h - img.shape[0])), "word", 0)


SHORT = "Vif Fl. Cl. Ob. Hn. Vc. Tpt. D.S. D.C. Bsn. In 2 In 4 I. II. Solo Tr. Vla. Lent Time Out 3X 4X (2) G.P. V.S. l.v.".split()


def word(sh):
    """words; short ones often, as they look like marks"""
    img = sh.text(str(sh.r.choice(SHORT)) if sh.r.random() < 0.3 else lettering.phrase(sh.r), sh.r.uniform(0.8, 1.9))
    if img is not None and img.shape[1] < sh.g.shape[1] - 80:
        sh.settle(img, sh.r.uniform(30 + img.shape[1] / 2, sh.g.shape[1] - 50 - img.shape[1] / 2), "word", sh.r.random() < 0.65)


def bars(sh):
    """[(left, right)] of bars between barlines, without rests or repeat signs in them"""
    xs = [l[0] for l in sorted(sh.lines)]
    busy = [b[1] for b in sh.boxes if b[0] <= K["bar-repeat-2"]]
    return [(a, b) for a, b in zip(xs, xs[1:]) if b - a > 30 and not any(a < c < b for c in busy)]


def counters(sh):
    """1 2 3 ... over ordinary bars: not counts, so without a label"""
    free, size, above = bars(sh), sh.r.uniform(0.8, 1.5), sh.r.random() < 0.75
    face = sh.faces
    sh.faces = [sh.faces[sh.r.integers(0, len(sh.faces))]]
    n = 1 + int(sh.r.integers(0, 2))
    for a, b in free[int(sh.r.integers(0, 3)):][:8]:
        img = sh.text(str(n), size)
        if img is not None:
            sh.settle(img, (a + b) / 2 + sh.r.normal(0, 3), None, above)
        n += 1
    sh.faces = face


def counts(sh):
    """other figures in other faces over thick bars and block rests"""
    for b in [b for b in sh.boxes if b[0] == K["count"]]:
        k, cx, cy, w, h = b
        if cy + h / 2 > 68 or sh.r.random() < 0.4:
            continue
        img = sh.text(str(lettering.number(sh.r)) if sh.r.random() < 0.7 else "1", sh.r.uniform(1.2, 2.5))
        if img is None:
            continue
        before = sh.g.copy()
        sh.wipe(cx - w / 2 - 1, cy - h / 2 - 1, cx + w / 2 + 1, cy + h / 2 + 1)
        bottom = min(66, cy + h / 2 + sh.r.uniform(-4, 6))
        if sh.r.random() < 0.2:  # under the staff, as some houses print them
            bottom = 110 + img.shape[0] + sh.r.uniform(0, 12)
        if sh.paste(img, cx, bottom, "count"):
            sh.boxes.remove(b)
        else:
            sh.g, sh.sum = before, None


def bar_number(sh):
    if any(b[0] == K["bar-number"] for b in sh.boxes):
        return
    img = sh.text(str(int(sh.r.integers(2, 500))), sh.r.uniform(0.7, 1.4))
    if img is None:
        return
    if sh.r.random() < 0.5:
        sh.settle(img, sh.r.uniform(24, 48), "bar-number")
    else:
        sh.paste(img, 22 - img.shape[1] / 2 - sh.r.uniform(0, 8), 88 + img.shape[0] / 2 + sh.r.uniform(-8, 8), "bar-number", 1)


def every(sh):
    """a number over every bar, in a box or bare: bar numbers, not marks"""
    r, xs = sh.r, sorted(l[0] for l in sh.lines)
    if len(xs) < 4 or any(b[0] in (K["bar-number"], K["rehearsal"]) for b in sh.boxes):
        return
    n, size, boxed, face = int(r.integers(1, 400)), r.uniform(0.8, 1.7), r.random() < 0.6, sh.faces
    off, height, sh.faces = r.uniform(-5, 8), r.uniform(46, 62), [face[r.integers(0, len(face))]]
    for i, x in enumerate([r.uniform(26, 60), *xs[:-1]]):
        img = sh.text(str(n + i), size)
        if img is None:
            continue
        if boxed:
            p = int(r.uniform(2, 4))
            img = np.pad(img, p, constant_values=255)
            cv2.rectangle(img, (0, 0), (img.shape[1] - 1, img.shape[0] - 1), 0, 1)
        for d in (0, 4, 8, 12, 20):
            if sh.paste(img, x + off + (img.shape[1] / 2 if off > 0 else 0), height - d, "bar-number", 1):
                break
    sh.faces = face


def cue(sh):
    """small notes around a whole-bar rest: the player rests all the same"""
    r = sh.r
    for k, cx, cy, w, h in [b for b in sh.boxes if b[0] == K["rest"]]:
        if r.random() < 0.4:
            continue
        xs = sorted(l[0] for l in sh.lines)
        left, right = max([x for x in xs if x < cx] + [20]) + 8, min([x for x in xs if x > cx] + [sh.g.shape[1] - 2 * SLACK - 8]) - 8
        n = int(np.clip((right - left) / r.uniform(9, 20), 0, 8))
        if n < 2:
            continue
        at = np.sort(r.uniform(left, right, n))
        at = at[np.r_[True, np.diff(at) > 6]]
        high = cy < 68 and r.random() < 0.8
        ys = (88 + r.uniform(0, 22, len(at))) if high else cy + r.choice([-1, 1]) * r.uniform(6, 18) + r.normal(0, 4, len(at))
        side, stem, t = (1 if r.random() < 0.5 else -1), r.uniform(12, 20), int(r.choice([1, 1, 2]))
        q = lambda x, y: (int((x + SLACK) * 8), int((y + SLACK) * 8))
        if sh.sounds is not None:
            sh.sounds += [[float(x), k] for x in at for k in (0, SOUNDS.index("small"))]
        tips, old = [], sh.g[int(cy - h / 2) - 1 + SLACK:int(cy + h / 2) + 2 + SLACK, int(cx - w / 2) - 1 + SLACK:int(cx + w / 2) + 2 + SLACK].copy()
        for x, y in zip(at, ys):
            cv2.ellipse(sh.g, q(x, y), (int(3.4 * 8), int(2.5 * 8)), -25, 0, 360, 0, -1 if r.random() < 0.85 else t, cv2.LINE_AA, 3)
            tip = y - side * stem * r.uniform(0.8, 1.2)
            cv2.line(sh.g, q(x + side * 3, y), q(x + side * 3, tip), 0, t, cv2.LINE_AA, 3)
            tips.append((x + side * 3, tip))
        if len(tips) > 1 and r.random() < 0.5:
            cv2.line(sh.g, q(*tips[0]), q(*tips[-1]), 0, int(r.integers(2, 4)), cv2.LINE_AA, 3)
        v = sh.g[int(cy - h / 2) - 1 + SLACK:int(cy + h / 2) + 2 + SLACK, int(cx - w / 2) - 1 + SLACK:int(cx + w / 2) + 2 + SLACK]
        if v.shape == old.shape and (v < 128).sum() > 1.6 * (old < 128).sum():
            v[:] = old  # what covers the rest itself is taken back
        sh.sum = None


def no_bar(sh):
    """the thick bar of a rest taken out: an empty staff under a figure is no rest"""
    for b in [b for b in sh.boxes if b[0] == K["multi-rest"]]:
        k, cx, cy, w, h = b
        x0, x1 = int(cx - w / 2) - 2 + SLACK, int(cx + w / 2) + 2 + SLACK
        if sh.r.random() < 0.5 or x0 < 8 or x1 + 8 >= sh.g.shape[1]:
            continue
        col = sh.g[56 + SLACK:121 + SLACK, x0 - 2]
        sh.g[56 + SLACK:121 + SLACK, x0:x1] = col[:, None]
        sh.boxes.remove(b)
        for c in [c for c in sh.boxes if c[0] == K["count"] and abs(c[1] - cx) < w / 2 + 8]:
            sh.boxes.remove(c)
        if sh.r.random() < 0.7:  # a whole note far off the staff, as tied low notes stand there
            y, n = sh.r.choice([-1, 1]), int(sh.r.integers(3, 7))
            for i in range(3, n + 1):
                cv2.line(sh.g, (int(cx) - 8 + SLACK, 88 + y * i * 8 + SLACK), (int(cx) + 8 + SLACK, 88 + y * i * 8 + SLACK), 0, 1)
            cv2.ellipse(sh.g, (int(cx) + SLACK, 88 + y * n * 8 + SLACK), (6, 4), 0, 0, 360, 0, 2, cv2.LINE_AA)
            if sh.sounds is not None:
                sh.sounds += [[float(cx), 0], [float(cx), SOUNDS.index("note-1")]]
        sh.sum = None


def add(r, gray, label, faces):
    sh = Sheet(r, gray, label, faces)
    steps = ((no_bar, 0.12), (every, 0.07), (cue, 0.3), (counts, 0.6), (ending, 0.4), (title, 0.12), (sign, 0.35), (sign, 0.25), (caesura, 0.25), (caesura, 0.15), (mark, 0.5), (mark, 0.35), (mark, 0.2), (navigation, 0.35), (navigation, 0.2),
             (bar_number, 0.4), (counters, 0.25), (word, 0.35), (word, 0.2))
    for step, p in steps:
        if r.random() < p:
            step(sh)
    return sh.g, dict(label, lines=sh.lines, boxes=sh.boxes, spans=sh.spans, **({} if sh.sounds is None else dict(sounds=sh.sounds)))


def many(args):
    seed, items, faces = args
    r = np.random.default_rng(seed)
    return [add(r, g, l, faces) for g, l in items]
