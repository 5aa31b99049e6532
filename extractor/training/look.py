"""look.py --data FOLDER --out PNG: damaged samples with the labels the network is trained on, to be looked at beside real strips."""
import argparse

import cv2
import numpy as np
import torch

import damage
import train_signs as t


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("--data", required=True)
    ap.add_argument("--out", required=True)
    ap.add_argument("--n", type=int, default=10)
    ap.add_argument("--seed", type=int, default=1)
    ap.add_argument("--hand", type=int, default=4)
    a = ap.parse_args()
    torch.manual_seed(a.seed)
    strips = t.store.read_all(a.data, "strips")
    np.random.default_rng(a.seed).shuffle(strips)
    data = t.Data(strips[:a.n * 2] + t.hands(a, 2), "cpu")
    bank = torch.from_numpy(damage.pencil_bank(40, t.W))
    idx = torch.randperm(len(data.img))[:a.n]
    x, (lx, lk), (cx, cy, w, h, k) = data.batch(idx, bank)
    rows = []
    for i in range(a.n):
        c = cv2.cvtColor((255 - x[i, 0].numpy() * 255).astype(np.uint8), cv2.COLOR_GRAY2BGR)
        for m in range(t.MOST):
            if lk[i, m] >= 0:
                cv2.line(c, (int(lx[i, m]), 50), (int(lx[i, m]), 60), (0, 0, 255), 1)
            if k[i, m] >= 0:
                p = [int(v) for v in (cx[i, m] - w[i, m] / 2, cy[i, m] - h[i, m] / 2, cx[i, m] + w[i, m] / 2, cy[i, m] + h[i, m] / 2)]
                cv2.rectangle(c, p[:2], p[2:], (255, 0, 0), 1)
        rows.append(c)
    cv2.imwrite(a.out, np.vstack(rows))


if __name__ == "__main__":
    main()
