"""Stickers of form (see stickers.py): endings, segno, coda, fermata, caesura, words of navigation, headings."""
import cv2
import numpy as np

import lettering
from strips import KINDS, SLACK, begins

FINE = 4  # drawn this much finer, then shrunk
K = {k: i for i, k in enumerate(KINDS)}


def level(sh, x0, x1, h):
    """a height over the staff at which a row of height h is blank, nearest first, or None"""
    for y in range(int(sh.r.uniform(38, 52)), 2, -4):
        if sh.blank(max(-14, x0), y - 2, min(x1, sh.g.shape[1] - 2 * SLACK - 1), y + h):
            return y
    return None


def numbers(r):
    """the numbers of endings in a row, as printers write them"""
    stop = "." if r.random() < 0.75 else ""
    join, dash = str(r.choice([",", ", ", "", " "])), str(r.choice(["-", " - "]))
    if not stop and not join.strip():
        join = ", "  # "1 2" alone could mean anything

    def many(*n):
        if len(n) > 2 and r.random() < 0.6:
            return str(n[0]) + stop + dash + str(n[-1]) + stop
        return join.join(str(v) + stop for v in n)

    rows = [[(1,), (2,)], [(1,), (2,)], [(1,), (2,), (3,)], [(1, 2), (3,)], [(1, 2, 3), (4,)], [(1,), (2, 3)], [(int(r.integers(1, 7)),)]]
    return [many(*n) for n in rows[r.integers(0, 7)]]


def ending(sh):
    """brackets over bars, one after another; the first may come from the line before, the last may go on"""
    r, xs = sh.r, [l[0] for l in sorted(sh.lines)]
    if len(xs) < 3 or sh.spans:
        return
    texts, i = numbers(r), int(r.integers(0, len(xs) - 1))
    t, d, right = (1 if r.random() < 0.6 else 2), r.uniform(9, 20), sh.g.shape[1] - 2 * SLACK
    left = xs[i] + r.uniform(-1, 6)
    if r.random() < 0.2:
        i, left = -1, r.uniform(30, 60)
    runs, at = [], left
    goes_on = i < 0 and r.random() < 0.5
    for text in texts:
        i += int(r.choice([1, 1, 1, 2, 2, 3, 4]))
        last = i >= len(xs) - 1
        end = (xs[-1] if last else xs[i]) - (r.uniform(-1, 5) if r.random() < 0.8 else r.uniform(5, 30))
        runs.append((at, end, None if goes_on and not runs else text))
        if last:
            break
        at = end + r.uniform(1, 8)
    y = level(sh, left, runs[-1][1], max(d, 14))
    if y is None or r.random() < 0.1:
        return
    face, size = sh.faces, r.uniform(0.8, 1.6)
    sh.faces = [face[r.integers(0, len(face))]]
    p = lambda x, yy: (int(x) + SLACK, int(yy) + SLACK)
    for n, (x0, x1, text) in enumerate(runs):
        img = None if text is None else sh.text(text, size)
        if x1 - x0 < 12 or text is not None and (img is None or x1 - x0 < img.shape[1] * 0.6 + 8):
            continue
        if img is not None and not sh.paste(img, x0 + r.uniform(3, 8) + img.shape[1] / 2, y + r.uniform(2, 5) + img.shape[0], None, 0):
            continue
        ink = int(r.uniform(0, 90))
        cv2.line(sh.g, p(x0, y), p(x1, y), ink, t)
        if text is not None and r.random() < 0.96:
            cv2.line(sh.g, p(x0, y), p(x0, y + d), ink, t)
        if r.random() < (0.85 if n + 1 < len(runs) else 0.45):
            cv2.line(sh.g, p(x1, y), p(x1, y + d), ink, t)
        h = max(d, 4 + img.shape[0]) if img is not None else d
        sh.spans.append([x0, x1])
        if img is not None:
            sh.boxes.append([K["ending"], *begins(((x0 + x1) / 2, y + h / 2, x1 - x0, h))])
        sh.sum = None
    sh.faces = face


def curve(pts, h, w, pen):
    img = np.full((h, w), 255, np.uint8)
    for q, k in pts:
        cv2.polylines(img, [np.round(np.array(q) * [w - 1, h - 1] * 8).astype(np.int32)], False, 0, max(1, round(pen * k)), cv2.LINE_AA, 3)
    return img


def drawn(r, kind):
    """a segno or coda as a pen draws it, FINE times the strip's scale"""
    h = int(r.uniform(1.5, 3.6) * 8 * FINE)
    pen = r.uniform(0.06, 0.22) * h / 2.5
    a = np.linspace(0, 2 * np.pi, 40)
    if kind == "coda":
        w = int(h * r.uniform(0.55, 1.1))
        rx, ry, over = 0.5 - r.uniform(0.06, 0.2), 0.5 - r.uniform(0.08, 0.22), r.uniform(0, 0.04)
        ring = np.stack([0.5 + rx * np.cos(a), 0.5 + ry * np.sin(a)], -1)
        img = curve([([(0.5 + r.normal(0, 0.02), over), (0.5, 1 - over)], 0.6), ([(over, 0.5 + r.normal(0, 0.02)), (1 - over, 0.5)], 0.6), (ring, 0.6)], h, w, pen)
        if r.random() < 0.6:  # thick sides, as a broad pen makes them
            for s in (-1, 1):
                cv2.ellipse(img, (int(w * (0.5 + s * rx)), h // 2), (max(1, int(pen * r.uniform(0.4, 0.9))), int(h * ry * 0.7)), 0, 0, 360, 0, -1, cv2.LINE_AA)
        return img
    w = int(h * r.uniform(0.6, 0.95))
    s = [(0.72, 0.2), (0.62, 0.08), (0.42, 0.06), (0.28, 0.2), (0.36, 0.38), (0.62, 0.56), (0.74, 0.76), (0.6, 0.93), (0.38, 0.92), (0.28, 0.8)]
    s = np.array(s) + r.normal(0, 0.015, (10, 2))
    t = np.linspace(0, 9, 60)
    s = np.stack([np.interp(t, range(10), s[:, i]) for i in (0, 1)], -1)
    img = curve([(s, 1.3), ([(0.92, 0.04), (0.06, 0.96)], 0.6)], h, w, pen)
    for x, y in ((0.14, 0.42), (0.88, 0.6)):
        cv2.circle(img, (int(x * w), int(y * h)), max(1, int(pen * r.uniform(0.6, 1.0))), 0, -1, cv2.LINE_AA)
    return img


BANK = {}  # kind -> gray pictures of signs cut from pages (filled before the workers start)


def gather(items, most=400):
    """pictures of segno, coda, fermata and caesura as the pages have them, without what stands around"""
    for kind in ("segno", "coda", "fermata"):
        BANK[kind] = []
        for g, label in items:
            for k, cx, cy, w, h in label["boxes"]:
                if k == K[kind] and len(BANK[kind]) < most and cy + h / 2 < 68 and cy - h / 2 > 0:
                    x0, y0 = int(cx - w / 2) - 1 + SLACK, int(cy - h / 2) - 1 + SLACK
                    part = g[y0:y0 + int(h) + 3, max(0, x0):x0 + int(w) + 3]
                    if part.size and part[0].min() > 120 and part[-1].min() > 120 and part[:, 0].min() > 120 and part[:, -1].min() > 120:
                        BANK[kind].append(part)


def sign(sh, kind=None):
    """a segno, coda or fermata over a bar; codas and segnos at a bar's beginning or the line's"""
    r = sh.r
    kind = kind or str(r.choice(["segno", "coda", "coda", "fermata"]))
    if kind != "fermata" and (r.random() < 0.5 or not BANK.get(kind)):
        img = sh.shrink(drawn(r, kind))
    elif BANK.get(kind):
        img = BANK[kind][r.integers(0, len(BANK[kind]))]
        k = r.uniform(0.75, 1.35)
        img = cv2.resize(img, (max(4, int(img.shape[1] * k * r.uniform(0.85, 1.15))), max(4, int(img.shape[0] * k))), interpolation=cv2.INTER_AREA if k < 1 else cv2.INTER_CUBIC)
    else:
        return
    xs = [l[0] for l in sh.lines]
    if not xs:
        return
    x = r.uniform(2, 60) if r.random() < 0.25 else r.choice(xs) + (r.uniform(-4, 14) if r.random() < 0.6 else r.uniform(8, 60))
    if kind == "fermata":
        x = r.uniform(60, max(61, max(xs)))
    sh.settle(img, x, kind, True, int(r.integers(0, 3)))


def caesura(sh):
    """two slanted strokes through the top line before a barline, or in a bar"""
    r = sh.r
    xs = [l[0] for l in sh.lines]
    if not xs:
        return
    x = r.choice(xs) - r.uniform(5, 16) if r.random() < 0.7 else r.uniform(60, max(61, max(xs)))
    h, lean, gap, t = r.uniform(10, 20), r.uniform(2, 9), r.uniform(3.5, 7), int(r.choice([1, 1, 2, 2, 3]))
    bottom = 72 + r.uniform(0, 10)
    w = lean + gap
    if not sh.blank(x - w / 2 - 2, bottom - h - 1, x + w / 2 + 2, 70) or not sh.blank(x - w / 2 - 2, 75, x + w / 2 + 2, 78):
        return
    for k in (0, 1):
        a, b = (x - w / 2 + k * gap, bottom), (x - w / 2 + k * gap + lean, bottom - h)
        cv2.line(sh.g, *[tuple(int(round((v + SLACK) * 8)) for v in q) for q in (a, b)], 0, t, cv2.LINE_AA, 3)
    sh.boxes.append([K["caesura"], x, bottom - h / 2, w + t, h + t])
    sh.sum = None


def navigation(sh):
    """To Coda, D.S. and their like, ending at a barline; some with a small coda or segno after them"""
    r = sh.r
    xs = [l[0] for l in sh.lines]
    img = sh.text(str(r.choice(lettering.NAVIGATION)), r.uniform(0.8, 2.0))
    if img is None or not xs:
        return
    if r.random() < 0.25:
        g = sh.shrink(drawn(r, str(r.choice(["coda", "coda", "segno"]))))
        k = r.uniform(0.8, 1.3) * img.shape[0] / g.shape[0]
        g = cv2.resize(g, (max(4, int(g.shape[1] * k)), max(4, int(g.shape[0] * k))), interpolation=cv2.INTER_AREA)
        h = max(g.shape[0], img.shape[0])
        fit = lambda a: np.pad(a, ((h - a.shape[0] - (h - a.shape[0]) // 2, (h - a.shape[0]) // 2), (0, int(r.integers(2, 6)))), constant_values=255)
        img = np.hstack([fit(img), fit(g)])
    x = r.choice(xs) + r.uniform(-2, 4) - img.shape[1] / 2 if r.random() < 0.8 else r.choice(xs) + img.shape[1] / 2
    sh.settle(img, x, "word", r.random() < 0.75, int(r.integers(0, 3)))


def title(sh):
    """a heading over the line, in its middle or at its left"""
    r = sh.r
    if any(b[0] == K["heading"] for b in sh.boxes):
        return
    img = sh.text(lettering.heading(r), r.uniform(1.5, 3.2))
    if img is None or img.shape[1] > sh.g.shape[1] - 120:
        return
    mid = (sh.g.shape[1] - 2 * SLACK) / 2
    x = mid + r.normal(0, 20) if r.random() < 0.5 else r.uniform(10, 40) + img.shape[1] / 2
    for bottom in range(int(r.uniform(20, 44)), 8, -4):
        if sh.paste(img, x, bottom, "heading", 3):
            return
