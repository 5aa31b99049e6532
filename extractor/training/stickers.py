"""More signs on strips of made pages: marks, words, counts, bar numbers and endings in many typefaces, counters that mean nothing,
and staves whose thick bar is gone. Placed where the strip is blank, so that labels stay true.
"""
import cv2
import numpy as np

import lettering
from strips import KINDS, SLACK

FINE = 4  # drawn this much finer, then shrunk
K = {k: i for i, k in enumerate(KINDS)}


class Sheet:
    def __init__(self, r, gray, label, faces):
        self.r, self.g, self.faces = r, gray.copy(), faces
        self.lines = [list(l) for l in label["lines"]]
        self.boxes = [list(b) for b in label["boxes"]]
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
    sh.settle(img, x + off, "rehearsal", True, int(r.integers(0, 3)))


def word(sh):
    img = sh.text(lettering.phrase(sh.r), sh.r.uniform(0.8, 1.9))
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


def ending(sh):
    xs = [l[0] for l in sorted(sh.lines)]
    if len(xs) < 3:
        return
    i = int(sh.r.integers(0, len(xs) - 1))
    x0, x1 = xs[i] + sh.r.uniform(-1, 5), xs[min(len(xs) - 1, i + int(sh.r.integers(1, 4)))] - sh.r.uniform(-1, 5)
    y, d = sh.r.uniform(14, 50), sh.r.uniform(8, 20)
    img = sh.text(str(sh.r.choice(["1.", "2.", "3.", "1.2.", "1.", "2.", "1", "2", "1.-3."])), sh.r.uniform(0.8, 1.5))
    if img is None or x1 - x0 < img.shape[1] + 10 or not sh.paste(img, x0 + 5 + img.shape[1] / 2, y + 3 + img.shape[0], None, 1):
        return
    t = 1 if sh.r.random() < 0.6 else 2
    p = lambda x, yy: (int(x) + SLACK, int(yy) + SLACK)
    cv2.line(sh.g, p(x0, y), p(x1, y), 40, t)
    cv2.line(sh.g, p(x0, y), p(x0, y + d), 40, t)
    if sh.r.random() < 0.6:
        cv2.line(sh.g, p(x1, y), p(x1, y + d), 40, t)
    h = max(d, 4 + img.shape[0])
    sh.boxes.append([K["ending"], (x0 + x1) / 2, y + h / 2, x1 - x0, h])
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
        sh.sum = None


def add(r, gray, label, faces):
    sh = Sheet(r, gray, label, faces)
    for step, p in ((no_bar, 0.12), (counts, 0.7), (mark, 0.5), (mark, 0.35), (mark, 0.2), (ending, 0.15), (bar_number, 0.4), (counters, 0.25), (word, 0.4), (word, 0.25)):
        if r.random() < p:
            step(sh)
    return sh.g, dict(label, lines=sh.lines, boxes=sh.boxes)


def many(args):
    seed, items, faces = args
    r = np.random.default_rng(seed)
    return [add(r, g, l, faces) for g, l in items]
