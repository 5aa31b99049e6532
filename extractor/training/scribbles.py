"""What people scribble into parts, in pencil."""
import cv2
import numpy as np

HEIGHT = 160


def pencil_bank(n, w, seed=5):
    """uint8 [n, HEIGHT, w], ink 255: what people scribble into parts"""
    r = np.random.default_rng(seed)
    bank = np.zeros((n, HEIGHT, w), np.uint8)
    for img in bank:
        for _ in range(r.integers(1, 6)):
            x, y, t = r.uniform(0, w), r.uniform(0, HEIGHT), int(r.integers(1, 4))
            kind = r.integers(0, 10)
            if kind == 0:  # ring
                cv2.ellipse(img, (int(x), int(y)), (int(r.uniform(8, 60)), int(r.uniform(6, 22))), r.uniform(-10, 10), 0, r.uniform(250, 380), 255, t, cv2.LINE_AA)
            elif kind == 1:  # long stroke across the system, well beyond the staff, or far from upright
                a = r.normal(0, 0.12) if r.random() < 0.6 else r.uniform(-1.2, 1.2)
                l = r.uniform(45, 110)
                p = [(x - a * l, 88 - l + r.normal(0, 8)), (x, 88), (x + a * l, 88 + l * r.uniform(0.6, 1))]
                cv2.polylines(img, [np.array(p, np.int32)], False, 255, t, cv2.LINE_AA)
            elif kind == 2:  # glasses
                for d in (0, 18):
                    cv2.circle(img, (int(x) + d, int(y)), 8, 255, t, cv2.LINE_AA)
            elif kind == 3:  # hairpin or arrow
                l = r.uniform(20, 120)
                cv2.line(img, (int(x), int(y)), (int(x + l), int(y - 8)), 255, t, cv2.LINE_AA)
                cv2.line(img, (int(x), int(y)), (int(x + l), int(y + 8)), 255, t, cv2.LINE_AA)
            elif kind == 4:  # words and figures
                s = "".join(r.choice(list("abcdefgiklmnoprstuvw123456789"), r.integers(1, 7)))
                f = int(r.choice([cv2.FONT_HERSHEY_SCRIPT_SIMPLEX, cv2.FONT_HERSHEY_SCRIPT_COMPLEX, cv2.FONT_HERSHEY_SIMPLEX]))
                cv2.putText(img, s, (int(x), int(y)), f, r.uniform(0.4, 1.1), 255, t, cv2.LINE_AA)
            elif kind == 5:  # scribble
                p = np.stack([x + np.cumsum(r.normal(1, 7, 14)), y + np.cumsum(r.normal(0, 6, 14))], -1)
                cv2.polylines(img, [p.astype(np.int32)], False, 255, t, cv2.LINE_AA)
            elif kind == 6:  # an accent, as over a note
                l, d = r.uniform(8, 16) * r.choice([-1, 1]), r.uniform(3, 6)
                cv2.polylines(img, [np.array([(x, y - d), (x + l, y), (x, y + d)], np.int32)], False, 255, t, cv2.LINE_AA)
            elif kind == 7:  # a tick or one slanted stroke through the top line: a breath, a reminder, no caesura
                y, l = r.uniform(56, 84), r.uniform(10, 26)
                p = [(x, y), (x + l * r.uniform(0.15, 0.8), y - l)]
                if r.random() < 0.6:
                    p.insert(0, (x - l * r.uniform(0.2, 0.4), y - l * r.uniform(0.2, 0.5)))
                cv2.polylines(img, [np.array(p, np.int32)], False, 255, t, cv2.LINE_AA)
            else:  # bow marks, ticks
                cv2.polylines(img, [np.array([(x, y), (x + 6, y + 12), (x + 12, y)], np.int32)], False, 255, t, cv2.LINE_AA)
    return bank
