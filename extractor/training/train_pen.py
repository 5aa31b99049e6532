"""train_pen.py --data FOLDER --start FOLDER --out FOLDER [--minutes M]: the network for barlines of pages written by hand (pen.onnx).

It goes on from a finished sign network (signs.npz of unpack.py) and keeps of it what leads to `lines`; signs.onnx stays as it is. Most samples are strips
drawn by hand.py, the others strips of made pages, many of them hand-copied (make.mjs --hand 1). Writes pen.npz, pen.onnx and pen.json.
"""
import argparse
import datetime
import json
import math
import os
import time

import numpy as np
import torch

import damage
import net
import store
import train_signs
from strips import LINES
from train_signs import W, Average, Data, half

SHARE = 0.65  # of the samples, those drawn by hand.py


def renorm(model, x):
    """batch norms that unpack.py made identities get the means and deviations of what they see; the function stays the same"""
    def look(norm):
        def hook(layer, given, out):
            y = given[0].float()
            norm.seen = y.mean((0, 2, 3)), y.var((0, 2, 3)).clamp(min=1e-4)
        return norm.register_forward_hook(hook)
    norms = [m for m in model.modules() if isinstance(m, torch.nn.BatchNorm2d)]
    hooks = [look(n) for n in norms]
    model.eval()
    with torch.no_grad():
        model(x)
    for h in hooks:
        h.remove()
    for n in norms:
        if hasattr(n, "seen"):
            mean, var = n.seen
            scale = (n.weight / (n.running_var + n.eps).sqrt()).detach()
            shift = (n.bias - scale * n.running_mean).detach()
            n.running_mean.copy_(mean)
            n.running_var.copy_(var)
            n.weight.data.copy_(scale * (var + n.eps).sqrt())
            n.bias.data.copy_(shift + scale * mean)
            del n.seen


def start(path, dev, data, bank):
    model = net.Barlines().to(dev).to(memory_format=torch.channels_last)
    z = np.load(path)
    own = model.state_dict()
    model.load_state_dict({k: torch.as_tensor(z[k]) if k in z.files else v for k, v in own.items()})
    if any(k.startswith("step:") for k in z.files):
        x = data.batch(torch.randint(0, len(data.img), (64 if dev == "cuda" else 4,), device=dev), bank)[0]
        renorm(model, x)
    return model


def figures(model, data, bank):
    """of held-out samples, damaged and not: the threshold of the best F1, F1 there and at one half"""
    out = {}
    for name, hurt in (("drawn", False), ("damaged", True)):
        got, n, typed = score(model, data, bank, hurt)
        best = train_signs.decode.best(got, n)
        half_ = [g for g in got if g[0] >= 0.5]
        right = sum(g[1] for g in half_)
        out[name] = dict(threshold=best[0], f1=round(best[1], 4), at_half=round(2 * right / max(1, len(half_) + n), 4), n=n, type=round(float(np.mean(typed)), 4) if typed else 0)
    return out


@torch.no_grad()
def score(model, data, bank, hurt):
    torch.manual_seed(1)
    model.eval()
    got, n, typed = [], 0, []
    for i in range(0, len(data.img), 64):
        idx = torch.arange(i, min(i + 64, len(data.img)), device=data.img.device)
        x, l, _ = data.batch(idx, bank, 1.0 if hurt else 0.2, hurt)
        heat = torch.sigmoid(model(x).float()).cpu().numpy()
        lx, lk = l[0].cpu().numpy(), l[1].cpu().numpy()
        for k in range(len(idx)):
            truth = [(lx[k, m], lk[k, m]) for m in range(train_signs.MOST) if lk[k, m] >= 0 and 3 < lx[k, m] < W - 3]
            m = train_signs.decode.match_lines(train_signs.decode.lines(heat[k], 0.05), truth)
            got += m
            n += len(truth)
            typed += [t for s, r, t in m if r and s > 0.4]
    model.train()
    return got, n, typed


class Exported(torch.nn.Module):
    def __init__(self, model):
        super().__init__()
        self.net = model

    def forward(self, strip):
        return torch.sigmoid(self.net(strip))


def export(model, path):
    names = dict(strip={0: "n", 3: "w"}, lines={0: "n", 2: "w2"})
    extra = {} if torch.__version__ < "2" else {"dynamo": False}
    torch.onnx.export(Exported(model.cpu().float().eval()), torch.zeros(2, 1, 160, 992), path, opset_version=17, input_names=["strip"], output_names=["lines"], dynamic_axes=names, **extra)


def run(a):
    dev, t0 = "cuda" if torch.cuda.is_available() else "cpu", time.time()
    made = store.read_all(a.data, "strips")
    held = [s for s in made if s[1]["held"]][:a.check]
    mine = [s for s in made if not s[1]["held"]]
    drawn = train_signs.hands(a, 32)
    hold = min(a.check, len(drawn) // 4)
    print("pen: %d strips of pages, %d drawn; %.0f s" % (len(mine), len(drawn), time.time() - t0), flush=True)
    checks = {"hand": Data(drawn[:hold], dev), "pages": Data(held, dev)}
    data = Data(mine + drawn[hold:], dev)
    pages = torch.from_numpy(data.src < len(mine)).to(dev)
    p = torch.ones(len(pages), dtype=torch.double, device=dev)
    p[pages] *= (1 - SHARE) / max(1, int(pages.sum()))
    p[~pages] *= SHARE / max(1, int((~pages).sum()))
    bank = torch.from_numpy(damage.pencil_bank(400 if dev == "cuda" else 20, W)).to(dev)
    model = start(os.path.join(a.start, "signs.npz"), dev, data, bank)
    before = {k: figures(model, v, bank) for k, v in checks.items()}
    print("pen: before", before, "%.0f s" % (time.time() - t0), flush=True)
    opt = torch.optim.AdamW(model.parameters(), 1e-3, weight_decay=0.02, betas=(0.9, 0.98), foreach=True)
    mean, begin, step = Average(model), time.time(), 0
    stop = a.deadline - 40
    model.train()
    while time.time() < stop and (not a.steps or step < a.steps):
        done = (time.time() - begin) / max(1e-9, stop - begin)
        for g in opt.param_groups:
            g["lr"] = a.rate * min(1, (step + 1) / 300) * (0.5 + 0.5 * math.cos(math.pi * min(1, done)))
        with torch.no_grad():
            x, l, _ = data.batch(torch.multinomial(p, a.batch, replacement=True), bank)
            target = net.line_targets(*l[:2], W)
        with half(x):
            lines = model(x.contiguous(memory_format=torch.channels_last))
        loss = net.line_loss(lines, target)
        net.descend(model, loss, opt)
        step += 1
        mean.take(model, min(0.998, step / (step + 20)))
        if step % 250 == 0 or step < 4:
            print("pen:", step, round(time.time() - begin, 1), round(float(loss.detach()), 3), flush=True)
    model.load_state_dict(mean.state)
    np.savez(os.path.join(a.out, "pen.npz"), **{k: v.float().cpu().numpy() for k, v in model.state_dict().items()})
    after = {k: figures(model, v, bank) for k, v in checks.items()}
    print("pen: after", after, "steps", step, "%.0f s" % (time.time() - t0), flush=True)
    json.dump(dict(date=datetime.date.today().isoformat(), seed=a.seed, steps=step, lines=LINES, before=before, after=after), open(os.path.join(a.out, "pen.json"), "w"), indent=1)


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("--data", required=True)
    ap.add_argument("--start", required=True)
    ap.add_argument("--out", required=True)
    ap.add_argument("--minutes", type=float, default=8)
    ap.add_argument("--seed", type=int, default=130)
    ap.add_argument("--batch", type=int, default=96)
    ap.add_argument("--hand", type=int, default=20000, help="hand-drawn strips")
    ap.add_argument("--rate", type=float, default=8e-4)
    ap.add_argument("--steps", type=int, default=0, help="stop after so many")
    ap.add_argument("--check", type=int, default=500, help="held-out strips of either sort")
    ap.add_argument("--export", help="an npz of weights that is only exported to OUT/pen.onnx; several, by commas, are averaged")
    a = ap.parse_args()
    os.makedirs(a.out, exist_ok=True)
    if a.export:
        model, z = net.Barlines(), [np.load(f) for f in a.export.split(",")]
        model.load_state_dict({k: torch.as_tensor(np.mean([v[k] for v in z], 0)) for k in model.state_dict()})
        return export(model, os.path.join(a.out, "pen.onnx"))
    a.deadline = time.time() + a.minutes * 60
    torch.manual_seed(a.seed)
    np.random.seed(a.seed)
    torch.backends.cudnn.benchmark = True
    run(a)


if __name__ == "__main__":
    main()
