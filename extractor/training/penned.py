"""Key signatures and signs of form as a pen draws them: a part of writer.Writer."""
import numpy as np

from strips import KINDS, begins


class Forms:
    def key(self, x, n):
        """n accidentals of one sort -> right end"""
        flat, start = self.r.random() < 0.6, x
        ys = [(-0.5, -2, 0, -1.5, 0.5, -1)[k] if flat else (-2, -0.5, -2.5, -1, 0.5, -1.5)[k] for k in range(n)]
        down = float(self.r.choice([0, 0.5, 1]))
        for y in ys:
            x = self.accidental(x, y + down, flat) - self.r.uniform(0, 0.2)
        if n:
            self.box("key", start - 0.2, min(ys) + down - 1.4, x - 0.1, max(ys) + down + (0.6 if flat else 1.1))
        return x

    def ring(self, x, y, rx, ry):
        a = np.linspace(-1.4, 2 * np.pi - 1.2, 16)
        self.stroke(np.stack([x + rx * np.cos(a), y + ry * np.sin(a)], -1), None, self.wobble * 0.5)

    def coda(self, x, y):
        h = self.r.uniform(0.8, 1.5)
        w = h * self.r.uniform(0.6, 1.0)
        self.ring(x, y, w * 0.75, h * 0.75)
        self.stroke([(x, y - h), (x + self.r.normal(0, 0.1), y + h)])
        self.stroke([(x - w, y), (x + w, y + self.r.normal(0, 0.1))])
        self.box("coda", x - w, y - h, x + w, y + h)

    def segno(self, x, y):
        h = self.r.uniform(0.8, 1.5)
        w = h * self.r.uniform(0.6, 0.9)
        q = lambda *v: [(x + a * w, y + b * h) for a, b in v]
        self.stroke(q((0.5, -0.6), (0.1, -0.95), (-0.5, -0.6), (0.1, 0), (0.5, 0.6), (-0.1, 0.95), (-0.5, 0.6)))
        self.stroke(q((0.9, -0.9), (-0.9, 0.9)))
        for a, b in q((-0.75, -0.15), (0.75, 0.2)):
            self.blob(a, b, 0.14, 0.14)
        self.box("segno", x - w, y - h, x + w, y + h)

    def fermata(self, x, y):
        w, h = self.r.uniform(0.8, 1.3), self.r.uniform(0.7, 1.2)
        a = np.linspace(np.pi, 2 * np.pi, 9)
        self.stroke(np.stack([x + w * np.cos(a), y + h * np.sin(a)], -1))
        self.blob(x, y - 0.15, 0.15, 0.15)
        self.box("fermata", x - w, y - h, x + w, y + 0.1)

    def caesura(self, x):
        r, top, lean, gap = self.r, self.r.uniform(-3.6, -2.5), self.r.uniform(0.3, 0.8), self.r.uniform(0.4, 0.8)
        for k in (0, 1):
            self.stroke([(x + k * gap, -1.4), (x + k * gap + lean, top)], None, self.wobble * 0.5)
        self.box("caesura", x, top, x + gap + lean, -1.4)

    def ending(self, x0, x1, text):
        r, y = self.r, self.r.uniform(-7.5, -4.5)
        d, n = r.uniform(1.2, 2.4), len(self.boxes)
        e = self.text(text, x0 + r.uniform(0.4, 0.9), y + r.uniform(1.3, 1.8), r.uniform(0.9, 1.5), "ending")
        del self.boxes[n:]
        if e <= x0 + 1:
            return
        p = [(x0, y + d), (x0, y), (x1, y + r.normal(0, 0.15))]
        self.stroke(p[:2], None, self.wobble * 0.5)
        self.stroke(p[1:], None, self.wobble * 0.5)
        if r.random() < 0.6:
            self.stroke([p[2], (x1, y + d)], None, self.wobble * 0.5)
        left, right = x0 * 8 + 24, x1 * 8 + 24
        h = max(d, 1.9) * 8
        self.spans.append([left, right])
        self.boxes.append([KINDS.index("ending"), *begins(((left + right) / 2, y * 8 + 88 + h / 2, right - left, h))])
