"""A page picture turned into a photograph of a book on a stand, or into a slightly turned scan; points go along exactly.

The page is bent near the binding, seen in perspective on dark wood, with warm uneven light, the shadow of someone at
the lamp, a little blur and noise. Everything follows from the seed.
"""
import cv2
import numpy as np

SIZE = (2448, 3264)


class Bend:
    """from page pixels to the plane of the open book and on to the photograph, and back"""

    def __init__(self, seed, w, h, right_hand, binding=0.045):
        r = np.random.default_rng(seed)
        self.r, self.w, self.h, self.right = r, w, h, right_hand
        self.a, self.tau = r.uniform(0.18, 0.32), r.uniform(0.09, 0.15)
        self.b, self.c = r.uniform(0.01, 0.022), r.uniform(-0.012, 0.012)
        self.table = np.linspace(0, 1.2, 2401)
        self.dist = self.table - self.a * self.tau * (1 - np.exp(-self.table / self.tau))
        pw, ph = SIZE
        j = lambda s: r.uniform(-s, s)
        near, far = binding, 0.045 + r.uniform(0, 0.015)  # margins at the binding and at the outer edge
        x0, x1 = (near, 1 - far) if right_hand else (far, 1 - near)
        top, bot = 0.045 + r.uniform(0, 0.01), 1 - 0.035 - r.uniform(0, 0.01)
        pinch = r.uniform(0.004, 0.016)  # the top lies further away
        quad = [(x0 + pinch + j(0.004), top + j(0.006)), (x1 - pinch + j(0.004), top + j(0.006)),
                (x1 + j(0.004), bot + j(0.006)), (x0 + j(0.004), bot + j(0.006))]
        ew = float(np.interp(1.0, self.table, self.dist)) * w
        src = np.float32([(0, 0), (ew, 0), (ew, h), (0, h)])
        self.H = cv2.getPerspectiveTransform(src, np.float32([(x * pw, y * ph) for x, y in quad]))
        self.ew = ew

    def lift(self, t):
        return self.b * np.exp(-np.abs(t) / self.tau), self.c * self.h * np.exp(-np.abs(t) / self.tau)

    def forward(self, pts):
        p = np.asarray(pts, float)
        t = p[:, 0] / self.w if self.right else 1 - p[:, 0] / self.w
        d = np.interp(t, self.table, self.dist) * self.w
        u = d if self.right else self.ew - d
        s, shift = self.lift(t)
        v = self.h / 2 + (p[:, 1] - self.h / 2) * (1 - s) + shift
        q = self.H @ np.vstack([u, v, np.ones(len(u))])
        return (q[:2] / q[2]).T

    def inverse_maps(self):
        """-> t (distance from the binding, negative on the facing page), y on the page"""
        pw, ph = SIZE
        gx, gy = np.meshgrid(np.arange(pw, dtype=np.float32), np.arange(ph, dtype=np.float32))
        M = np.linalg.inv(self.H)
        den = M[2, 0] * gx + M[2, 1] * gy + M[2, 2]
        u = (M[0, 0] * gx + M[0, 1] * gy + M[0, 2]) / den
        v = (M[1, 0] * gx + M[1, 1] * gy + M[1, 2]) / den
        d = (u if self.right else self.ew - u) / self.w
        t = np.sign(d) * np.interp(np.abs(d), self.dist, self.table)
        s, shift = self.lift(t)
        return t.astype(np.float32), ((v - shift - self.h / 2) / (1 - s) + self.h / 2).astype(np.float32)


def smooth_noise(r, shape, cell):
    small = r.normal(size=(shape[0] // cell[0] + 2, shape[1] // cell[1] + 2)).astype(np.float32)
    return cv2.resize(small, (shape[1], shape[0]), interpolation=cv2.INTER_CUBIC)


def wood(r, shape):
    grain = smooth_noise(r, shape, (6, 260)) * 0.5 + smooth_noise(r, shape, (26, 500)) + smooth_noise(r, shape, (2, 90)) * 0.25
    base = np.float32([28, 40, 62])  # BGR
    return np.clip(base * (1 + 0.16 * grain[..., None]), 4, 255)


def photograph(gray, facing, seed, right_hand, binding):
    """-> (BGR picture, forward map)"""
    h, w = gray.shape
    bend = Bend(seed, w, h, right_hand, binding)
    r = bend.r
    t, y = bend.inverse_maps()
    # sampling below the drawn scale: soften first
    soft = cv2.GaussianBlur(gray, (0, 0), 0.7)
    x = t * w if right_hand else (1 - t) * w
    ink = cv2.remap(soft, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255).astype(np.float32)
    inside = ((t >= 0) & (t <= 1) & (y >= 0) & (y <= h)).astype(np.float32)
    other = ((t < 0) & (t > -1) & (y >= 0) & (y <= h)).astype(np.float32)
    fx = (1 + t) * w if right_hand else -t * w
    fsoft = cv2.GaussianBlur(facing, (0, 0), 0.7) if facing is not None else np.full_like(gray, 255)
    fink = cv2.remap(fsoft, fx.astype(np.float32), y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255)
    ink = np.where(other > 0, fink.astype(np.float32), ink)
    paper = cv2.GaussianBlur(np.maximum(inside, other), (0, 0), 1.2)
    tone = np.float32([205, 226, 240]) * (1 + 0.012 * smooth_noise(r, t.shape, (40, 40))[..., None])
    dark = np.float32([42, 40, 44])
    k = (ink / 255.0)[..., None]
    page = dark + (tone - dark) * k
    shadow = cv2.GaussianBlur(np.roll(np.maximum(inside, other), (26, 18), (0, 1)), (0, 0), 28)[..., None]
    back = wood(r, t.shape) * (1 - 0.6 * shadow)
    img = back * (1 - paper[..., None]) + page * paper[..., None]
    # light: a lamp from one side, a soft-edged shadow across a corner, darkness in the gutter
    gy, gx = np.mgrid[0:t.shape[0], 0:t.shape[1]].astype(np.float32)
    gx, gy = gx / t.shape[1], gy / t.shape[0]
    lx, ly = r.uniform(0.25, 0.75), r.uniform(-0.05, 0.3)
    light = 0.66 + 0.42 * np.exp(-(((gx - lx) / 0.75) ** 2 + ((gy - ly) / 0.85) ** 2))
    ang, off = r.uniform(0.5, 1.1) * r.choice([-1, 1]), r.uniform(0.28, 0.42)
    edge = (gx - 0.5) * np.sin(ang) + (gy - 0.5) * np.cos(ang) - off + 0.03 * np.sin(5 * gx + r.uniform(0, 6))
    light *= 1 - r.uniform(0.25, 0.36) / (1 + np.exp(-edge / 0.025))
    light *= 1 - 0.30 * np.exp(-np.abs(t) / 0.035) - 0.10 * np.exp(-np.abs(t) / 0.16)
    img = img * light[..., None] * np.float32([0.86, 0.97, 1.05])
    img = cv2.GaussianBlur(img, (0, 0), r.uniform(0.7, 1.05))
    img += r.normal(0, 2.2, t.shape).astype(np.float32)[..., None] + r.normal(0, 1.2, img.shape).astype(np.float32)
    return np.clip(img, 0, 255).astype(np.uint8), bend.forward


def scan(gray, seed):
    """-> (gray picture, forward map): turned by a fraction of a degree, thin ink eaten a little, dust"""
    r = np.random.default_rng(seed)
    h, w = gray.shape
    M = cv2.getRotationMatrix2D((w / 2, h / 2), float(r.uniform(0.3, 0.6) * r.choice([-1, 1])), 1.0)
    img = cv2.warpAffine(gray, M, (w, h), flags=cv2.INTER_CUBIC, borderValue=255).astype(np.float32)
    img = cv2.GaussianBlur(img, (0, 0), 0.8) + 14 * smooth_noise(r, gray.shape, (7, 7)) * (img < 200)
    for _ in range(160):
        cv2.circle(img, (int(r.integers(w)), int(r.integers(h))), int(r.integers(1, 3)), float(r.uniform(60, 180)), -1)
    lut = np.clip((img - 20) * 255 / 215, 0, 255)
    return lut.astype(np.uint8), lambda pts: np.asarray(pts, float) @ M[:, :2].T + M[:, 2]


def with_orientation(jpeg, value):
    """puts an EXIF orientation into a JPEG's bytes"""
    tiff = b"II*\0\x08\0\0\0" + b"\x01\0" + b"\x12\x01\x03\0\x01\0\0\0" + bytes([value, 0, 0, 0]) + b"\0\0\0\0"
    body = b"Exif\0\0" + tiff
    return jpeg[:2] + b"\xff\xe1" + (len(body) + 2).to_bytes(2, "big") + body + jpeg[2:]
