"""From network outputs to barlines and boxes: the rules the extractor follows too (README.md, "Decoding")."""
import numpy as np

APART = 9.0  # px: two barlines are never nearer than this
REACH = 3  # cells beside a peak over which its place and type are settled


def lines(heat, threshold):
    """[8, W/2] -> [(x, type, score)], left to right"""
    a = heat[7]
    order = [i for i in np.argsort(-a) if a[i] >= threshold]
    found = []
    for i in order:
        if i and a[i - 1] > a[i] or i + 1 < len(a) and a[i + 1] > a[i]:
            continue
        lo, hi = max(0, i - 2), min(len(a), i + 3)
        w = a[lo:hi] ** 2
        x = float((w * (np.arange(lo, hi) * 2 + 1)).sum() / w.sum())
        if any(abs(x - f[0]) < APART for f in found):
            continue
        t = heat[:7, max(0, i - REACH):i + REACH + 1].max(1)
        found.append((x, int(t.argmax()), float(a[i])))
    return sorted(found)


def peaks(row, threshold):
    """[W/2] -> [(x, 0, score)]: cells not lower than their neighbours, two cells apart at least"""
    found = []
    for i in np.argsort(-row):
        if row[i] < threshold:
            break
        if i and row[i - 1] > row[i] or i + 1 < len(row) and row[i + 1] > row[i] or any(abs(2 * i + 1 - f[0]) < 5 for f in found):
            continue
        found.append((2.0 * i + 1, 0, float(row[i])))
    return sorted(found)


WHOLE = ["1", "2", "4", "8", "16", "32"]
LEAST, OTHER = dict(note=0.3, pause=0.4), 0.15
YES, NO = 0.5, 0.2  # a dot or a tuplet is there, is not; between them nobody knows


def worth(p, names, i, kind):
    """quarters of the note or rest in cell i, None where unknown; notes of grace and of cues are worth 0"""
    lo, hi = max(0, i - 2), i + 3
    top = lambda s: float(p[names.index(s), lo:hi].max()) if s in names else 0.0
    if kind == "note" and top("small") >= YES:
        return 0.0
    values = sorted(((top("%s-%s" % (kind, w)), w) for w in WHOLE), reverse=True)
    dot, tuplet = top("dot"), top("tuplet")
    if values[0][0] < YES or values[1][0] > OTHER or NO < dot < YES or NO < tuplet < YES:
        return None
    return 4 / int(values[0][1]) * (1.5 if dot >= YES else 1) * (2 / 3 if tuplet >= YES else 1)


def sounds(p, names):
    """[C, W/2] -> [(x, "note" or "pause", quarters or None, score)], as the extractor's SoundDecoder reads them"""
    out = []
    for kind in ("note", "pause"):
        row = p[names.index(kind)]
        for i in np.flatnonzero(row >= LEAST[kind]):
            if (i == 0 or row[i] >= row[i - 1]) and (i + 1 == len(row) or row[i] > row[i + 1]):
                out.append((2.0 * i + 1, kind, worth(p, names, i, kind), float(row[i])))
    return sorted(out)


def iou(a, b):
    ix = min(a[0] + a[2] / 2, b[0] + b[2] / 2) - max(a[0] - a[2] / 2, b[0] - b[2] / 2)
    iy = min(a[1] + a[3] / 2, b[1] + b[3] / 2) - max(a[1] - a[3] / 2, b[1] - b[3] / 2)
    inter = max(0, ix) * max(0, iy)
    return inter / (a[2] * a[3] + b[2] * b[3] - inter + 1e-9)


def covers(a, b):
    """share of the smaller box that lies in the other"""
    ix = min(a[0] + a[2] / 2, b[0] + b[2] / 2) - max(a[0] - a[2] / 2, b[0] - b[2] / 2)
    iy = min(a[1] + a[3] / 2, b[1] + b[3] / 2) - max(a[1] - a[3] / 2, b[1] - b[3] / 2)
    return max(0, ix) * max(0, iy) / (min(a[2] * a[3], b[2] * b[3]) + 1e-9)


def boxes(heat, size, thresholds):
    """[K,40,W/4], [4,40,W/4] -> [(kind, cx, cy, w, h, score)]; a peak is the greatest of its 3 x 3 cells"""
    p = np.pad(heat, ((0, 0), (1, 1), (1, 1)))
    top = np.max([p[:, i:i + heat.shape[1], j:j + heat.shape[2]] for i in range(3) for j in range(3)], 0)
    out = []
    for k in range(len(heat)):
        ii, jj = np.where((heat[k] >= thresholds[k]) & (heat[k] >= top[k]))
        kept = []
        for n in np.argsort(-heat[k][ii, jj]):
            i, j = ii[n], jj[n]
            dx, dy, w, h = size[:, i, j]
            b = (4 * j + 2 + dx, 4 * i + 2 + dy, w, h)
            if all(iou(b, o) < 0.4 and covers(b, o) < 0.7 for o in kept):
                kept.append(b)
                out.append((k, *map(float, b), float(heat[k, i, j])))
    return out


def match_lines(found, truth, tolerance=6.0):
    """-> list of (score, right, type right) of what was found, and how many were there"""
    left, out = list(truth), []
    for x, t, s in sorted(found, key=lambda f: -f[2]):
        near = [(abs(x - l[0]), l) for l in left if abs(x - l[0]) <= tolerance]
        if near:
            l = min(near)[1]
            left.remove(l)
            out.append((s, True, t == l[1]))
        else:
            out.append((s, False, False))
    return out


def match_boxes(found, truth, overlap=0.4):
    """per kind: {kind: [(score, right)]}"""
    left, out = list(truth), {}
    for f in sorted(found, key=lambda f: -f[5]):
        near = [(iou(f[1:5], l[1:5]), l) for l in left if l[0] == f[0]]
        near = [n for n in near if n[0] >= overlap]
        if near:
            left.remove(max(near)[1])
        out.setdefault(f[0], []).append((f[5], bool(near)))
    return out


def best(scored, total, eager=False):
    """(threshold, F1, precision, recall) at the best F1; scored = [(score, right)].

    eager: the lowest threshold that costs at most 0.004 of the best F1, for signs that a later step can still throw out.
    """
    curve, tp = [], 0
    scored = sorted(scored, key=lambda s: -s[0])
    for n, (s, right, *_) in enumerate(scored, 1):
        tp += right
        after = scored[n][0] if n < len(scored) else s * 0.9
        curve.append((round((s + after) / 2, 3), 2 * tp / (n + total), tp / n, tp / max(1, total)))
    if not curve:
        return 0.5, 0.0, 0.0, 0.0
    top = max(c[1] for c in curve)
    good = [c for c in curve if c[1] >= top - (0.004 if eager else 1e-9)]
    return good[-1] if eager else good[len(good) // 2]
