"""Straighten a staff into a strip: constant scale, middle staff line on a fixed row.

A strip at `scale` px per staff space has its middle line at y = 11 * scale and is 20 * scale high (nine spaces above the top
line, seven below the bottom line); it starts 3 spaces left of the staff and ends 3 spaces right of it.
"""
import cv2
import numpy as np

ABOVE, BELOW, SIDE = 11.0, 9.0, 3.0  # spaces from the middle line up and down, and beyond both ends


class Axis:
    """The middle line of a staff as a curve of arc length, straight beyond its ends."""

    def __init__(self, midline, pad):
        p = np.asarray(midline, np.float64)
        keep = np.r_[True, np.hypot(*np.diff(p, axis=0).T) > 1e-6]
        p = p[keep]
        s = np.r_[0, np.cumsum(np.hypot(*np.diff(p, axis=0).T))]
        self.length = s[-1]
        a, b = p[1] - p[0], p[-1] - p[-2]
        a, b = a / np.hypot(*a), b / np.hypot(*b)
        s = np.r_[-pad, s, self.length + pad]
        p = np.vstack([p[0] - a * pad, p, p[-1] + b * pad])
        self.s, self.p = s, p
        n = max(64, int(len(p)))
        self.grid = np.linspace(s[0], s[-1], max(n, int((s[-1] - s[0]) / 2)))
        self.points = self.at(self.grid)
        t = np.gradient(self.points, self.grid, axis=0)
        k = min(31, len(t) // 2 * 2 - 1)
        t = cv2.blur(t, (1, k), borderType=cv2.BORDER_REPLICATE)
        self.tangent = t / np.hypot(t[:, :1], t[:, 1:])

    def at(self, s):
        return np.stack([np.interp(s, self.s, self.p[:, i]) for i in (0, 1)], -1)

    def direction(self, s):
        return np.stack([np.interp(s, self.grid, self.tangent[:, i]) for i in (0, 1)], -1)

    def project(self, x, y):
        """(arc length, distance below the line) of a point of the page"""
        d = np.hypot(self.points[:, 0] - x, self.points[:, 1] - y)
        i = int(d.argmin())
        t = self.tangent[i]
        v = np.array([x, y]) - self.points[i]
        return self.grid[i] + v @ t, v @ np.array([-t[1], t[0]])


def cut(page, midline, space, scale=8, slack=0):
    """-> (strip uint8 [20*scale + 2*slack, W + 2*slack], Axis); slack: extra pixels of page on every side"""
    axis = Axis(midline, (SIDE + 2 * slack / scale + 12) * space)
    w = int(round((axis.length / space + 2 * SIDE) * scale)) + 2 * slack
    h = int(round((ABOVE + BELOW) * scale)) + 2 * slack
    s = (np.arange(w) + 0.5 - slack - SIDE * scale) * space / scale
    n = (np.arange(h) + 0.5 - slack - ABOVE * scale) * space / scale
    p, t = axis.at(s), axis.direction(s)
    mx = p[None, :, 0] - t[None, :, 1] * n[:, None]
    my = p[None, :, 1] + t[None, :, 0] * n[:, None]
    x0, y0 = max(0, int(mx.min()) - 4), max(0, int(my.min()) - 4)
    x1, y1 = min(page.shape[1], int(mx.max()) + 5), min(page.shape[0], int(my.max()) + 5)
    if x1 - x0 < 2 or y1 - y0 < 2:
        return np.full((h, w), 255, np.uint8), axis
    band = page[y0:y1, x0:x1]
    fx = fy = 1.0
    if space > scale * 1.05:  # shrink first, so that thin lines are averaged and not skipped
        size = max(1, round((x1 - x0) * scale / space)), max(1, round((y1 - y0) * scale / space))
        fx, fy = size[0] / (x1 - x0), size[1] / (y1 - y0)
        band = cv2.resize(band, size, interpolation=cv2.INTER_AREA)
    mx, my = (mx - x0) * fx - 0.5, (my - y0) * fy - 0.5
    return cv2.remap(band, mx.astype(np.float32), my.astype(np.float32), cv2.INTER_LINEAR,
                     borderMode=cv2.BORDER_CONSTANT, borderValue=255), axis


def place(axis, box, space, scale=8):
    """A box of the page in strip pixels without slack: (centre x, centre y, width, height)"""
    x0, y0, x1, y1 = box
    s, n = axis.project((x0 + x1) / 2, (y0 + y1) / 2)
    k = scale / space
    return s * k + SIDE * scale, n * k + ABOVE * scale, (x1 - x0) * k, (y1 - y0) * k


def flatten(page):
    """Even out light: paper to about 250, ink kept dark."""
    small = cv2.resize(page, None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA)
    k = max(3, min(small.shape) // 24 * 2 + 1)
    paper = cv2.blur(cv2.dilate(small, np.ones((9, 9), np.uint8)), (k, k))
    paper = cv2.resize(paper, page.shape[::-1], interpolation=cv2.INTER_LINEAR)
    return np.clip(page.astype(np.float32) * 250 / np.maximum(paper, 40), 0, 255).astype(np.uint8)
