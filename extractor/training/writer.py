"""One invented hand: pen, slant, wobble, habits, and the signs as it draws them (see hand.py).

Everything is in staff spaces: x from the staff's left end, y down from the middle line; drawn at 16 px a space.
"""
import cv2
import numpy as np
from PIL import Image, ImageDraw, ImageFont

from penned import Forms
from strips import KINDS, LINES, SLACK, SOUNDS

PX = 16


class Writer(Forms):
    def __init__(self, rng, fonts):
        self.r = rng
        u = rng.uniform
        self.pen = u(0.07, 0.26)
        self.bar_pen = self.pen * u(0.8, 1.5)
        self.wobble = u(0.0, 0.12)
        self.slant = rng.normal(0, 0.05)
        self.head = rng.choice(["blob", "tick", "open", "dot", "none"], p=[0.48, 0.2, 0.14, 0.13, 0.05])
        self.rests = rng.integers(0, 8, 3)
        self.gap = u(0, 1.1) if rng.random() < 0.4 else 0  # stems don't reach their heads
        self.over = abs(rng.normal(0, 0.3)) if rng.random() < 0.7 else -u(0, 0.7)
        self.stem = u(2.3, 4.2)
        self.small = u(0.5, 1.1)  # size of heads
        self.leap = rng.choice([0.5, 0.8, 1.7])
        self.packed = u(1.05, 1.6) if rng.random() < 0.5 else 1.7
        self.lifts = rng.choice([0, 0, 0.05, 0.2])  # barlines drawn in two strokes with a gap
        self.artic = rng.choice([0, 0.1, 0.5])
        self.steep = u(0, 0.22)
        self.slurs = u(0, 0.5)
        self.tall = rng.choice([0, 0.1, 0.5], p=[0.25, 0.35, 0.4])  # groups at one edge of the staff, their beam at the other: stems like barlines
        self.trills = rng.choice([0, 0.15], p=[0.7, 0.3])
        self.font = rng.choice(fonts) if len(fonts) else None
        self.width = u(80, 124) if rng.random() < 0.8 else u(50, 80)
        self.img = np.full((20 * PX + 4 * SLACK, int(self.width * PX) + 6 * PX + 4 * SLACK), 255, np.uint8)
        self.lines, self.boxes, self.spans, self.sounds = [], [], [], []

    # --- strokes
    def px(self, p):
        p = np.asarray(p, float)
        return (p + [3, 11]) * PX + 2 * SLACK

    def stroke(self, points, pen=None, wobble=None):
        """a line through points, smoothed, shaken by the writer's hand"""
        p = np.asarray(points, float)
        w = self.wobble if wobble is None else wobble
        d = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        n = max(4, int(d[-1] * 3))
        t = np.linspace(0, d[-1], n)
        q = np.stack([np.interp(t, d, p[:, i]) for i in (0, 1)], -1)
        if len(p) > 2:
            q[1:-1] = (q[:-2] + 2 * q[1:-1] + q[2:]) / 4
        k = max(2, n // 6)
        q += np.stack([np.interp(np.arange(n), np.linspace(0, n - 1, k + 1), self.r.normal(0, w, k + 1)) for _ in (0, 1)], -1)
        pen = (pen or self.pen) * self.r.uniform(0.8, 1.2)
        cv2.polylines(self.img, [np.round(self.px(q) * 8).astype(np.int32)], False, 0, max(1, round(pen * PX)), cv2.LINE_AA, 3)

    def blob(self, x, y, rx, ry, angle=-25, fill=True):
        c = tuple(int(v) for v in np.round(self.px((x, y)) * 8))
        axes = max(1, int(rx * PX * 8)), max(1, int(ry * PX * 8))
        cv2.ellipse(self.img, c, axes, angle + self.r.normal(0, 8), 0, 360, 0, -1 if fill else max(1, int(self.pen * PX)), cv2.LINE_AA, 3)

    def text(self, s, x, y, size, kind=None):
        """text with its left bottom at (x, y) -> right end; boxes named `kind`"""
        if self.font is None:
            return x
        f = ImageFont.truetype(self.font, max(6, int(size * PX * 1.35)))
        l, t, r, b = f.getbbox(s)
        if r - l < 1 or b - t < 1:
            return x
        pil = Image.new("L", (r - l + 2, b - t + 2), 255)
        ImageDraw.Draw(pil).text((1 - l, 1 - t), s, font=f, fill=0)
        g = np.asarray(pil)
        k = size * PX / g.shape[0] if s.isdigit() else 1
        g = cv2.resize(g, (max(2, int(g.shape[1] * k)), max(2, int(g.shape[0] * k))), interpolation=cv2.INTER_AREA)
        X, Y = (int(v) for v in self.px((x, y)))
        Y -= g.shape[0]
        if X < 0 or Y < 0 or X + g.shape[1] > self.img.shape[1] or Y + g.shape[0] > self.img.shape[0]:
            return x
        view = self.img[Y:Y + g.shape[0], X:X + g.shape[1]]
        np.minimum(view, g, out=view)
        w, h = g.shape[1] / PX, g.shape[0] / PX
        if kind:
            self.box(kind, x, y - h, x + w, y)
        return x + w

    def box(self, kind, x0, y0, x1, y1):
        self.boxes.append([KINDS.index(kind), (x0 + x1) * 4 + 24, (y0 + y1) * 4 + 88, (x1 - x0) * 8, (y1 - y0) * 8])

    # --- signs
    def bar_stroke(self, x, pen=None):
        r = self.r
        a, b = -2 - r.normal(self.over * 0.6, 0.25), 2 + r.normal(self.over * 0.6, 0.25)
        lean = self.slant + r.normal(0, 0.03)
        bow = r.normal(0, 0.08)
        if r.random() < self.lifts:
            c, d, off = r.uniform(-1, 1), r.uniform(0.1, 0.5), r.normal(0, 0.1)
            self.stroke([(x - lean * a, a), (x - lean * c, c)], pen or self.bar_pen, self.wobble * 0.5)
            self.stroke([(x + off - lean * c, c + d), (x + off - lean * b, b)], pen or self.bar_pen, self.wobble * 0.5)
            return
        self.stroke([(x - lean * a, a), (x + bow, (a + b) / 2), (x - lean * b, b)], pen or self.bar_pen, self.wobble * 0.5)

    def barline(self, x, kind):
        r, gap = self.r, self.r.uniform(0.45, 1.0)
        xs = [x]
        if kind == "dashed":
            for y in np.arange(-2, 2, 0.9):
                self.stroke([(x, y), (x, y + 0.5)], self.bar_pen)
        elif kind == "single":
            self.bar_stroke(x)
        elif kind == "double":
            xs = [x - gap, x]
        elif kind in ("final", "repeat-end"):
            xs = [x - gap, x]
        elif kind == "repeat-start":
            xs = [x, x + gap]
        else:
            xs = [x - gap / 2, x + gap / 2]
        thick = r.uniform(1.6, 3)
        for i, v in enumerate(xs):
            if kind in ("single", "dashed"):
                break
            fat = (kind in ("final", "repeat-end") and i == 1) or (kind == "repeat-start" and i == 0)
            self.bar_stroke(v, self.bar_pen * (thick if fat and r.random() < 0.8 else 1))
        for side, name in ((1, "repeat-start"), (-1, "repeat-end")):
            if kind in (name, "repeat-both"):
                at = (xs[-1] if side > 0 else xs[0]) + side * r.uniform(0.45, 0.9)
                for y in (-0.5, 0.5):
                    self.blob(at + r.normal(0, 0.08), y + r.normal(0, 0.1), 0.16, 0.16)
        self.lines.append([(xs[0] + xs[-1]) * 4 + 24, LINES.index(kind)])

    def clef(self, x):
        r, c = self.r, self.r.integers(0, 4)
        if c == 0:  # G clef
            t = np.linspace(0, 2.2 * np.pi, 14)
            self.stroke(np.stack([x + 1.2 + np.cos(t) * (1.0 - t * 0.06), 1 - np.sin(t) * (1.0 - t * 0.05)], -1))
            self.stroke([(x + 0.6, 0.4), (x + 1.9, -1.8), (x + 1.5, -3.2), (x + 1.0, -2), (x + 1.5, 2.8), (x + 0.9, 3.4), (x + 0.4, 2.9)])
        elif c == 1:  # F clef
            self.blob(x + 0.6, -1, 0.25, 0.25)
            self.stroke([(x + 0.5, -1), (x + 1.1, -2), (x + 2.0, -1.2), (x + 1.8, 0.2), (x + 0.4, 1.6)])
            self.blob(x + 2.6, -1.4, 0.13, 0.13)
            self.blob(x + 2.6, -0.5, 0.13, 0.13)
        elif c == 2:  # C clef: strokes as tall as barlines, then a 3
            self.bar_stroke(x + 0.1)
            if r.random() < 0.7:
                self.bar_stroke(x + 0.1 + r.uniform(0.4, 0.9))
            self.stroke([(x + 1.1, -1.9), (x + 2.2, -1.6), (x + 2.1, -0.5), (x + 1.3, 0), (x + 2.2, 0.4), (x + 2.2, 1.6), (x + 1.1, 1.9)])
        else:  # B-shaped C clef
            self.bar_stroke(x + 0.2)
            self.stroke([(x + 0.4, -1.9), (x + 2, -1.3), (x + 0.6, 0), (x + 2.2, 1), (x + 0.5, 1.9)], self.pen)
        return x + 3.2

    def accidental(self, x, y, flat=None):
        if self.r.random() < 0.5 if flat is None else flat:
            self.stroke([(x, y - 1.4), (x, y + 0.5), (x + 0.6, y - 0.1), (x + 0.1, y - 0.4)])
        else:
            for d in (0, 0.4):
                self.stroke([(x + d, y - 1), (x + d, y + 1)])
                self.stroke([(x - 0.25, y - 0.3 + d * 1.6), (x + 0.7, y - 0.5 + d * 1.6)])
        return x + 0.95

    def note_head(self, x, y, hollow=False):
        if self.head == "tick" and not hollow:
            self.stroke([(x - 0.3 * self.small, y + 0.3 * self.small), (x + 0.3 * self.small, y - 0.25 * self.small)], self.pen * 1.5)
        elif self.head == "none" and not hollow:
            pass
        elif self.head == "dot":
            self.blob(x, y, 0.33, 0.25, fill=not hollow)
        else:
            self.blob(x, y, 0.52 * self.small, 0.36 * self.small, fill=not hollow and self.head != "open")
        for k in range(3, int(abs(y)) + 1):
            self.stroke([(x - 0.8, np.sign(y) * k), (x + 0.8, np.sign(y) * k)], self.pen * 0.8)

    def notes(self, x0, x1):
        """one beamed group or a single note between x0 and x1"""
        r = self.r
        n = max(1, min(8, int((x1 - x0) / r.uniform(self.packed, self.packed * 1.5))))
        xs = np.linspace(x0 + 0.6, x1 - 0.6, n)
        ys = np.clip(r.uniform(-3.2, 3.2) + np.cumsum(r.normal(0, self.leap, n)), -4.5, 4.5)
        up = ys.mean() > r.normal(0, 0.7)
        tall = r.random() < self.tall
        if tall:
            up = r.random() < 0.5
            ys = (1 if up else -1) * np.clip(r.uniform(1, 4) + np.cumsum(r.normal(0, self.leap * 0.6, n)), 0.5, 5)
        side, s = (0.45 * self.small, -1) if up else (-0.45 * self.small, 1)
        beam, lines = n > 1 and r.random() < 0.75, int(r.integers(1, 3))
        triplet = n == 3 and r.random() < 0.4
        far = s * (2 + r.uniform(-0.6, 1)) if tall else (ys.min() if up else ys.max()) + s * self.stem
        slope = np.clip(r.normal(0, self.steep), -0.35, 0.35) * min(1, 6 / max(1, x1 - x0))
        for x, y in zip(xs, ys):
            hollow = n == 1 and r.random() < 0.35
            if r.random() < 0.15:
                self.accidental(x - 1.5, y)
            self.note_head(x, y, hollow)
            if n == 1 and hollow and r.random() < 0.4:
                self.heard(x, "note", "note-1")
                continue
            flag = not beam and not hollow and r.random() < 0.4
            self.heard(x, "note", "note-%d" % (8 * lines if beam else 2 if hollow else 8 if flag else 4), *["tuplet"] * triplet)
            tip = far + slope * (x - xs[0]) if beam else far if tall and r.random() < 0.3 else y + s * self.stem * r.uniform(0.85, 1.3)
            lean = self.slant + r.normal(0, 0.03)
            self.stroke([(x + side, y + s * self.gap), (x + side - lean * (tip - y), tip)])
            if flag:
                self.stroke([(x + side, tip), (x + side + 0.8, tip - s * 1.1), (x + side + 0.6, tip - s * 1.9)])
            if r.random() < 0.1:
                self.blob(x + 1.0, y - 0.2, 0.13, 0.13)
                self.heard(x, "dot")
            if r.random() < self.artic:
                v = y - s * r.uniform(0.8, 1.4)
                if r.random() < 0.6:
                    self.blob(x, v, 0.12, 0.12)
                else:
                    self.stroke([(x - 0.4, v - 0.25), (x + 0.4, v), (x - 0.4, v + 0.25)] if r.random() < 0.5 else [(x - 0.4, v), (x + 0.4, v)])
        if beam:
            for k in range(lines):
                o = -s * k * 0.65
                self.stroke([(xs[0] + side, far + o), (xs[-1] + side, far + o + slope * (xs[-1] - xs[0]))], self.pen * r.uniform(1, 2.2))
        if triplet:
            self.three((xs[0] + xs[-1]) / 2 + r.normal(0, 0.3), (far if beam else (ys + s * self.stem).mean()) + s * r.uniform(0.8, 1.6) + (0.5 if s > 0 else 0), r.uniform(0.5, 0.8))
        if r.random() < self.trills:
            self.trill(x0 + r.uniform(0, 1), x1 + r.choice([-0.5, 3]), -2.5 - r.uniform(0.3, 2.5) + min(0, ys.min() + 2))
        if r.random() < self.slurs:
            y, t = (ys.max() + 1 if up else ys.min() - 1), np.linspace(0, np.pi, 8)
            x2, high = x1 + r.choice([0, 0, 2, 5]), r.uniform(0.6, 2)
            self.stroke(np.stack([x0 + (x2 - x0) * t / np.pi, y - s * high * np.sin(t)], -1), self.pen * r.uniform(0.5, 1))

    def trill(self, x0, x1, y):
        """a wave, with or without a "tr" before it"""
        r = self.r
        if r.random() < 0.7:
            self.stroke([(x0 - 1.1, y - 0.5), (x0 - 1.2, y + 0.3), (x0 - 0.9, y + 0.35)], self.pen * 0.8)
            self.stroke([(x0 - 1.5, y - 0.15), (x0 - 0.8, y - 0.2)], self.pen * 0.8)
            self.stroke([(x0 - 0.6, y + 0.35), (x0 - 0.6, y - 0.1), (x0 - 0.2, y - 0.15)], self.pen * 0.8)
        if x1 - x0 > 1:
            xs = np.arange(x0, x1, 0.25)
            self.stroke(np.stack([xs, y + 0.18 * (-1) ** np.arange(len(xs))], -1), None, 0.03)

    def heard(self, x, *sounds):
        self.sounds += [[x * 8 + 24, SOUNDS.index(s)] for s in sounds]

    def three(self, x, y, h):
        """a triplet's figure, as a pen draws it"""
        w = h * self.r.uniform(0.5, 0.8)
        self.stroke([(x - w * 0.6, y - h), (x + w * 0.6, y - h * 0.85), (x - w * 0.1, y), (x + w * 0.7, y + h * 0.5), (x, y + h), (x - w * 0.7, y + h * 0.8)], self.pen * 0.8, self.wobble * 0.4)

    def short_rest(self, x):
        """a rest of a beat or less; legs of flagged ones may be as long as barlines"""
        r, c = self.r, int(self.r.choice(self.rests))
        value, leg = 4, r.uniform(1.2, 2.2)
        if c == 4:  # a tall zigzag
            self.stroke([(x + 0.2, -1.9), (x - 0.3, -0.7), (x + 0.4, 0.1), (x - 0.3, 0.6), (x + 0.2, 1.6)])
        elif c == 5:
            self.stroke([(x - 0.1, -1.2), (x + 0.4, -0.2), (x - 0.2, 0.2), (x + 0.1, 1.3)])
        elif c == 0:
            self.stroke([(x, -1.4), (x + 0.6, -0.6), (x, 0), (x + 0.5, 0.7), (x - 0.1, 0.6), (x + 0.3, 1.4)])
        elif c == 2:
            self.stroke([(x - 0.1, -0.9), (x + 0.5, -0.9), (x + 0.1, 0), (x + 0.5, 0.6), (x - 0.1, 0.9)])
        elif c == 3:
            self.stroke([(x, -0.3), (x + 1, -0.3)], self.pen * 2)
            value = 2
        else:
            value = 16 if c == 7 and r.random() < 0.5 else 8
            lean = r.uniform(0, 0.35)
            self.stroke([(x + 0.6, -0.9), (x + 0.6 - lean * (leg + 0.9), leg)])
            for v in (-0.9, 0.1)[:2 if value == 16 else 1]:
                at = x + 0.6 - lean * (v + 0.9)
                if r.random() < 0.7:
                    self.blob(at - 0.6, v + 0.1, 0.15, 0.15)
                self.stroke([(at - 0.7, v), (at - 0.3, v + 0.3), (at, v)])
        self.sounds += [[x * 8 + 26, 1], [x * 8 + 26, {2: 2, 4: 3, 8: 4, 16: 5}[value]]]

    def whole_rest(self, x, y=-1):
        self.stroke([(x - 0.55, y + 0.25), (x + 0.55, y + 0.25)], 0.45, 0.02)
        self.box("rest", x - 0.75, y, x + 0.75, y + 0.55)

    def count(self, x, n, kind="count"):
        y = self.r.uniform(-2.9, -2.4)
        self.text(str(n), x - 0.5 * len(str(n)), y, self.r.uniform(1.3, 2.4), kind)

    def empty_bar(self, x0, x1):
        """a bar of rest: one bar, a thick bar with a count, or a block rest"""
        r, x = self.r, (x0 + x1) / 2
        c = r.random()
        if c < 0.35 or x1 - x0 < 5:
            self.whole_rest(x)
            if r.random() < 0.25:
                self.count(x, 1)
        elif c < 0.8:
            a, b = x0 + r.uniform(0.6, 1.6), x1 - r.uniform(0.6, 1.6)
            fat = r.uniform(0.25, 0.9)
            self.stroke([(a, 0), (b, r.normal(0, 0.15))], fat, 0.03)
            for v in (a, b):
                if r.random() < 0.85:
                    self.stroke([(v, -r.uniform(0.6, 1.2)), (v, r.uniform(0.6, 1.2))])
            self.box("multi-rest", a, -1, b, 1)
            self.count(x, r.integers(2, 60) if r.random() < 0.8 else r.integers(2, 200))
        else:
            parts = [[2], [2, 1], [4], [4, 1], [4, 2], [4, 2, 1]][r.integers(0, 6)]
            a = x - 0.8 * (len(parts) - 1)
            for i, p in enumerate(parts):
                v = a + 1.6 * i
                if p == 1:
                    self.stroke([(v - 0.5, -0.75), (v + 0.5, -0.75)], 0.45, 0.02)
                else:
                    self.stroke([(v, -1), (v, 0 if p == 2 else 1)], 0.5, 0.02)
            self.box("block-rest", a - 0.6, -1, a + 1.6 * (len(parts) - 1) + 0.6, 1 if parts[0] == 4 else 0)
            if r.random() < 0.8:
                self.count(x, sum(parts))

    def meter(self, x):
        r = self.r
        if r.random() < 0.2:
            self.stroke([(x + 1.4, -0.6), (x + 0.7, -1), (x + 0.1, 0), (x + 0.7, 1), (x + 1.4, 0.6)])
            cut = r.random() < 0.5
            if cut:
                self.stroke([(x + 0.8, -1.7), (x + 0.7, 1.7)])
            self.box("meter", x, -1.7 if cut else -1, x + 1.4, 1.7 if cut else 1)
            return x + 2.2
        a, b = [("4", "4"), ("3", "4"), ("2", "4"), ("6", "8"), ("2", "2"), ("12", "8"), ("5", "4"), ("9", "8"), ("7", "8"), ("3", "8")][r.integers(0, 10)]
        n = len(self.boxes)
        e = max(self.text(a, x, 0, 1.85), self.text(b, x + 0.4 * (len(a) - 1), 2, 1.85))
        del self.boxes[n:]
        self.box("meter", x, -1.95, max(e, x + 1), 2)
        return e + 0.8
