"""Training of the reader of crops."""
import datetime
import glob
import json
import math
import os
import time
import zlib
from concurrent.futures import ProcessPoolExecutor

import numpy as np
import torch
import torch.nn.functional as F

import charset
import lettering
import net
import numerals
import store
from train_signs import Average, half

WIDTHS = [48, 80, 128, 192, 256, 320]
SHARE = {"count": 0.28, "meter": 0.19, "rehearsal": 0.19, "bar-number": 0.14, "ending": 0.05, "word": 0.2, "heading": 0.09, "key": 0.04}


def held_face(path):
    return zlib.crc32(os.path.basename(path).encode()) % 11 == 0


def letters(a, held, n, jobs=14):
    text = [f for f in lettering.faces(os.path.join(a.data, "fonts")) if "music" not in f and held_face(f) == held]
    music = lettering.faces(os.path.join(a.data, "fonts", "music"))
    if not text:
        return []
    k = max(1, n // 500)
    with ProcessPoolExecutor(min(jobs, os.cpu_count() or 1)) as pool:
        parts = pool.map(lettering.many, [(a.seed * 7919 + i + 100000 * held, math.ceil(n / k), text, music) for i in range(k)])
        return [(g, dict(kind=kind, text=t, held=held, made="letters")) for p in parts for g, kind, t in p]


class Data:
    """crops in buckets of width on the GPU"""

    def __init__(self, items, dev, balance=True):
        rows = []
        for g, label in items:
            t = charset.plain(label["text"])
            if t is None or label.get("old") and label["kind"] == "ending" or g.shape[0] != 48:
                continue
            w = g.shape[1] - 16
            b = next((i for i, v in enumerate(WIDTHS) if w <= v), None)
            code = charset.encode(t)
            if b is None or len(code) + sum(x == y for x, y in zip(code, code[1:])) > WIDTHS[b] // 4:
                continue
            rows.append((b, g, w, code, label))
        kinds = {}
        for r in rows:
            key = r[4]["kind"], r[4].get("made", "page")
            kinds[key] = kinds.get(key, 0) + 1
        sources = {k: sum(1 for kk in kinds if kk[0] == k) for k, _ in kinds}
        self.buckets, self.kinds = [], kinds
        for i, width in enumerate(WIDTHS):
            part = [r for r in rows if r[0] == i]
            if not part:
                self.buckets.append(None)
                continue
            img = np.full((len(part), 48, width + 16), 255, np.uint8)
            code = np.zeros((len(part), 40), np.int64)
            for n, r in enumerate(part):
                img[n, :, :r[1].shape[1]] = r[1]
                code[n, :len(r[3])] = r[3]
            w = [SHARE[r[4]["kind"]] / sources[r[4]["kind"]] / kinds[r[4]["kind"], r[4].get("made", "page")] for r in part]
            self.buckets.append(dict(img=torch.from_numpy(img).to(dev), width=torch.tensor([r[2] for r in part], device=dev),
                                     code=torch.from_numpy(code).to(dev), n=torch.tensor([len(r[3]) for r in part], device=dev),
                                     w=torch.tensor(w, device=dev), label=[r[4] for r in part]))
        self.p = np.array([float(b["w"].sum()) if b else 0 for b in self.buckets])
        self.p /= self.p.sum()

    def batch(self, r, size):
        i = int(r.choice(len(WIDTHS), p=self.p))
        b = self.buckets[i]
        idx = torch.multinomial(b["w"], max(64, size * 80 // WIDTHS[i]), replacement=True)
        x = numerals.wear(numerals.jitter(b["img"][idx], b["width"][idx]))
        return x, b["code"][idx], b["n"][idx]


@torch.no_grad()
def evaluate(model, data, hurt):
    """share of crops read letter for letter, by kind"""
    model.eval()
    right, total, wrong = {}, {}, []
    for b in data.buckets:
        if b is None:
            continue
        for i in range(0, len(b["img"]), 256):
            s = slice(i, i + 256)
            if hurt:
                x = numerals.wear(numerals.jitter(b["img"][s], b["width"][s]))
            else:
                x = (255 - b["img"][s][:, 8:40, 8:-8].unsqueeze(1).float()) / 255
                x = x * (torch.arange(x.shape[3], device=x.device).view(1, 1, 1, -1) < b["width"][s].view(-1, 1, 1, 1))
            out = model(x).cpu()
            for n, label in enumerate(b["label"][s]):
                k, want = label["kind"] + ("/" + label["made"] if "made" in label else ""), charset.plain(label["text"])
                got = numerals.greedy(out[n])
                total[k] = total.get(k, 0) + 1
                right[k] = right.get(k, 0) + (got == want)
                if got != want and len(wrong) < 4000:
                    wrong.append([k, want, got])
    model.train()
    return {k: dict(right=round(right[k] / total[k], 4), n=total[k]) for k in sorted(total)}, wrong


def export(model, path):
    model = model.cpu().float().eval()
    extra = {} if torch.__version__ < "2" else {"dynamo": False}
    torch.onnx.export(model, torch.zeros(2, 1, 32, 64), path, opset_version=17, input_names=["crop"], output_names=["chars"],
                      dynamic_axes=dict(crop={0: "n", 3: "w"}, chars={0: "n", 1: "t"}), **extra)


def run(a):
    dev = "cuda" if torch.cuda.is_available() else "cpu"
    t0 = time.time()
    crops = store.read_all(a.data, "crops")
    items = [c for c in crops if not c[1]["held"]] + letters(a, False, a.letters)
    check = [c for c in crops if c[1]["held"]][:6000] + letters(a, True, max(200, a.letters // 80))
    data, held = Data(items, dev), Data(check, dev)
    print("numerals: %d page crops, %d in all, %d held out; %.0f s" % (len(crops), len(items), len(check), time.time() - t0), data.kinds, flush=True)
    model = numerals.Reader().to(dev).to(memory_format=torch.channels_last)
    old = os.path.join(a.start or "", "numerals.npz")
    if a.start and os.path.exists(old):
        z = np.load(old)
        net.load(model, {k: z[k] for k in z.files})
    opt = torch.optim.AdamW(model.parameters(), 1e-3, weight_decay=0.02, betas=(0.9, 0.98))
    mean, r = Average(model), np.random.default_rng(a.seed)
    begin, step, stop = time.time(), 0, a.deadline - (15 if dev == "cuda" else 5)
    while time.time() < stop:
        done = (time.time() - begin) / max(1e-9, stop - begin)
        for g in opt.param_groups:
            g["lr"] = a.rate * 0.67 * min(1, (step + 1) / 400) * (0.5 + 0.5 * math.cos(math.pi * min(1, done)))
        with torch.no_grad():
            x, code, n = data.batch(r, a.batch * 5)
        with half(x):
            out = model(x.contiguous(memory_format=torch.channels_last))
        T = torch.full((len(x),), out.shape[1], dtype=torch.long, device=x.device)
        loss = F.ctc_loss(out.float().transpose(0, 1), code, T, n, zero_infinity=True)
        net.descend(model, loss, opt)
        step += 1
        mean.take(model, min(0.998, step / (step + 20)))
        if step % 500 == 0 or step < 3:
            print("numerals:", step, "%.0f s" % (time.time() - begin), "%.4f" % float(loss.detach()), flush=True)
    model.load_state_dict(mean.state)
    np.savez(os.path.join(a.out, "numerals.npz"), **{k: v.float().cpu().numpy() for k, v in model.state_dict().items()})
    clean, wrong = evaluate(model, held, False)
    worn, _ = evaluate(model, held, True)
    print("numerals clean", clean, "\nnumerals damaged", worn, "\n", wrong[:40], flush=True)
    json.dump(dict(version=a.version, date=datetime.date.today().isoformat(), seed=a.seed, chars=charset.CHARS), open(os.path.join(a.out, "numerals.json"), "w"), ensure_ascii=False, indent=1)
    json.dump(dict(numerals=dict(steps=step, crops=len(crops), letters=a.letters, clean=clean, damaged=worn, wrong=wrong[:150])), open(os.path.join(a.out, "part-numerals.json"), "w"), ensure_ascii=False)
    export(model, os.path.join(a.out, "numerals.onnx"))
    print("numerals: done after %.0f s" % (time.time() - t0), flush=True)
