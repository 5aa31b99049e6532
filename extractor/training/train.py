"""train.py --data FOLDER --out FOLDER [--minutes M]: packed strips and crops to signs.onnx, numerals.onnx, their JSON, metrics.json.

With two GPUs the reader is trained on the second at the same time; with one, first the reader (a third of the time), then the signs.
"""
import argparse
import datetime
import glob
import json
import os
import subprocess
import sys
import time

import numpy as np
import torch

import train_numerals
import train_signs


def finish(a):
    """one metrics.json of both parts"""
    m = dict(date=datetime.date.today().isoformat(), seed=a.seed, minutes=a.minutes)
    for f in glob.glob(os.path.join(a.out, "part-*.json")):
        m.update(json.load(open(f)))
        os.remove(f)
    json.dump(m, open(os.path.join(a.out, "metrics.json"), "w"), indent=1)


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("--data", required=True)
    ap.add_argument("--out", required=True)
    ap.add_argument("--minutes", type=float, default=8, help="wall clock of training, loading included")
    ap.add_argument("--seed", type=int, default=17)
    ap.add_argument("--batch", type=int, default=96)
    ap.add_argument("--hand", type=int, default=9000, help="hand-drawn strips")
    ap.add_argument("--letters", type=int, default=160000, help="crops drawn from typefaces")
    ap.add_argument("--rate", type=float, default=3e-3, help="peak learning rate of the sign network; lower when starting from weights")
    ap.add_argument("--size", choices=["full", "half"], default="full", help="of the sign network")
    ap.add_argument("--start", help="folder with signs.npz and numerals.npz to start from")
    ap.add_argument("--version", default="1")
    ap.add_argument("--profile", action="store_true", help="print the slowest GPU kernels of a few steps")
    ap.add_argument("--part", choices=["signs", "numerals", "both"], default="both")
    a = ap.parse_args()
    a.deadline = time.time() + a.minutes * 60
    os.makedirs(a.out, exist_ok=True)
    torch.manual_seed(a.seed)
    np.random.seed(a.seed)
    torch.backends.cudnn.benchmark = True
    if a.part == "signs":
        return train_signs.run(a)
    if a.part == "numerals":
        return train_numerals.run(a)
    one = [sys.executable, "-u", os.path.abspath(__file__), *sys.argv[1:], "--part"]
    if torch.cuda.device_count() > 1:
        jobs = [subprocess.Popen([*one, p], env=dict(os.environ, CUDA_VISIBLE_DEVICES=str(i))) for i, p in enumerate(("signs", "numerals"))]
        codes = [j.wait() for j in jobs]
    else:
        share = a.minutes * 0.3
        codes = [subprocess.call([*one, p, "--minutes", str(m)]) for p, m in (("numerals", share), ("signs", a.minutes - share))]
    finish(a)
    return max(codes)


if __name__ == "__main__":
    sys.exit(main())
