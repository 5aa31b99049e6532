"""train_charts.py --data FOLDER --start FOLDER --out FOLDER [--minutes M]: the head for half charts on a finished sign network (signs.npz of unpack.py), which stays as it is.

Writes charts.npz, charts.onnx (inputs as net.Signs.within gives them, see net.Charts; quantize_head.py --head charts joins it to signs.onnx) and charts.json with thresholds
and what it finds on held-out pages.
"""
import json
import math
import os
import time

import numpy as np
import torch
import torch.nn.functional as F

import damage
import decode
import net
import store
from strips import ALONG, CHARTS, SLACK
from train_signs import SPAN, W, Average, half, head_arguments

MOST, BARS = 128, 24
HIGH = ("chord", "counter", "rehearsal", "bar-number", "count")  # found over the strip's edge too


def rows(values, most, width, empty):
    out = np.full((most, width), empty, np.float32)
    if values:
        out[:min(most, len(values))] = values[:most]
    return out


class Data:
    """windows of strips on the GPU, drawn more often where rare signs are"""

    def __init__(self, strips, dev, kinds=CHARTS):
        imgs, lines, boxes, fills = [], [], [], []
        self.kinds, self.high = len(kinds), torch.tensor([k in HIGH for k in kinds]).to(dev)
        for g, label in strips:
            for at in range(0, max(1, g.shape[1] - SPAN + 300), 700):
                img = np.full((160 + 2 * SLACK, SPAN), 255, np.uint8)
                part = g[:img.shape[0], at:at + SPAN]
                img[:part.shape[0], :part.shape[1]] = part
                imgs.append(img)
                lines.append(rows([(x - at, t) for x, t in label["lines"] if -8 < x - at < SPAN], 64, 2, -1))
                boxes.append(rows([(k, x - at, y, w, h) for k, x, y, w, h in label["charts"] if -8 < x - at < SPAN], MOST, 5, -1))
                fills.append(rows([(a - at, b - at, k) for a, b, k in label["fills"] if b > at and a < at + SPAN], BARS, 3, -1))
                if at + SPAN >= g.shape[1]:
                    break
        boxes = np.stack(boxes)
        w = np.ones(len(boxes))
        for k in range(len(kinds)):
            has = (boxes[:, :, 0] == k).any(1)
            w += has * min(4.0, 0.06 / max(1e-9, has.mean()))
        self.img, self.lines, self.boxes, self.fills, self.w = (torch.from_numpy(v).to(dev) for v in (np.stack(imgs), np.stack(lines), boxes, np.stack(fills), w))

    def batch(self, idx, bank, strength=1.0, hurt=True):
        """-> images, heat, boxes (cx, cy, w, h, kind), along [B,L,W/2]"""
        geo = damage.Geometry(len(idx), W, self.img.device, strength, SLACK)
        x = geo.warp((255 - self.img[idx].unsqueeze(1).float()) / 255)
        if hurt:
            x = damage.damage(x, bank)
        b, l, f = self.boxes[idx], self.lines[idx], self.fills[idx]
        cx, cy, kx, ky = geo.follow(b[:, :, 1], b[:, :, 2])
        h = b[:, :, 4] * ky
        seen = (cy > 0) | self.high[b[:, :, 0].long().clamp(min=0)] & (cy + h / 2 > 5)
        kind = torch.where((b[:, :, 0] >= 0) & (cx > 0) & (cx < W) & seen & (cy < 160), b[:, :, 0], torch.full_like(cx, -1)).long()
        boxes = cx, cy, b[:, :, 3] * kx, h, kind
        lx = geo.follow(l[:, :, 0], torch.full_like(l[:, :, 0], 88.0))[0]
        lk = torch.where((l[:, :, 1] >= 0) & (lx > 0) & (lx < W), torch.zeros_like(lx), torch.full_like(lx, -1)).long()
        f0, f1 = (geo.follow(f[:, :, n].clamp(-400, SPAN + 400), torch.full_like(f[:, :, n], 88.0))[0] for n in (0, 1))
        along = [net.sound_targets(lx, lk, 1, W, 1.6)[:, 0]]
        for k in (1, 2, 3):
            own = f[:, :, 2] == k
            along.append(net.span_targets(torch.where(own, f0, torch.zeros_like(f0)), torch.where(own, f1, torch.zeros_like(f1)), W))
        return x, net.box_targets(*boxes, self.kinds, W), boxes, torch.stack(along, 1)


def loss_of(out, heat, boxes, along):
    h, s, a = out
    spans = F.binary_cross_entropy_with_logits(a[:, 1:].float(), along[:, 1:], reduction="none")
    return net.focal(h, heat) + 0.5 * net.size_loss(s, *boxes) + net.line_loss(a[:, :1], along[:, :1]) + 4 * spans.mean()


class Exported(torch.nn.Module):
    def __init__(self, head):
        super().__init__()
        self.head = head

    def forward(self, fold, four, deep, mix):
        heat, size, along = self.head(fold, four, deep, mix)
        return torch.sigmoid(heat), torch.cat([size[:, :2] * 4, 8 * torch.exp(size[:, 2:].clamp(-3, 5))], 1), torch.sigmoid(along)


@torch.no_grad()
def score(trunk, head, data, bank, hurt):
    """boxes found by kind [(score, right)], how many there were; barlines likewise; places along the staff right by channel [both, found, there]; bars of every fill by their mean"""
    torch.manual_seed(1)
    out, got, n, lines, there = Exported(head.eval()), {k: [] for k in CHARTS}, dict.fromkeys(CHARTS, 0), [], 0
    places, means = np.zeros((len(ALONG), 3)), {k: [[], []] for k in ALONG[1:]}
    for i in range(0, len(data.img), 48):
        idx = torch.arange(i, min(i + 48, len(data.img)), device=data.img.device)
        x, _, boxes, along = data.batch(idx, bank, 1.0 if hurt else 0.2, hurt)
        heat, size, a = (t.float().cpu().numpy() for t in out(*trunk.within(x)))
        want, bb = along.cpu().numpy(), [t.cpu().numpy() for t in boxes]
        both = (a > 0.5) & (want > 0.5)
        places += np.stack([both.sum((0, 2)), (a > 0.5).sum((0, 2)), (want > 0.5).sum((0, 2))], 1)
        for m in range(len(idx)):
            truth = [(bb[4][m, k], *(t[m, k] for t in bb[:4])) for k in range(MOST) if bb[4][m, k] >= 0]
            for k, v in decode.match_boxes(decode.boxes(heat[m], size[m], [0.1] * len(CHARTS)), truth).items():
                got[CHARTS[k]] += v
            for t in truth:
                n[CHARTS[t[0]]] += 1
            real = [(2.0 * p + 1, 0) for p in np.flatnonzero((want[m, 0] > 0.8) & (want[m, 0] >= np.roll(want[m, 0], 1)) & (want[m, 0] > np.roll(want[m, 0], -1)))]
            lines += [(s, ok) for s, ok, _ in decode.match_lines(decode.peaks(a[m, 0], 0.1), real)]
            there += len(real)
            for c in range(1, len(ALONG)):  # each bar between real lines: its mean, and whether it is one
                cuts = [int(v[0] // 2) for v in real]
                for p, q in zip(cuts, cuts[1:]):
                    if q - p > 12:
                        means[ALONG[c]][int(want[m, c, p + 5:q - 5].mean() > 0.5)].append(float(a[m, c, p + 5:q - 5].mean()))
    head.train()
    return got, n, lines, there, places, means


def report(parts):
    out = {}
    for k in CHARTS:
        n = sum(p[1][k] for p in parts)
        t, f1, pr, re = decode.best([g for p in parts for g in p[0][k]], n)
        out[k] = dict(threshold=t, f1=round(f1, 4), precision=round(pr, 4), recall=round(re, 4), n=n)
    n = sum(p[3] for p in parts)
    t, f1, pr, re = decode.best([g for p in parts for g in p[2]], n)
    out["line"] = dict(threshold=t, f1=round(f1, 4), precision=round(pr, 4), recall=round(re, 4), n=n)
    for i, k in enumerate(ALONG[1:], 1):
        s = sum(p[4][i] for p in parts)
        no, yes = ([v for p in parts for v in p[5][k][j]] for j in (0, 1))
        out[k] = dict(places=round(2 * s[0] / max(1, s[1] + s[2]), 4), bars=len(yes), others=len(no),
                      over={str(q): [round(float(np.mean(np.array(v) > q)), 4) if v else 0 for v in (yes, no)] for q in (0.3, 0.5, 0.7, 0.8, 0.9, 0.95)})
    return out


def export(head, path):
    extra = {} if torch.__version__ < "2" else {"dynamo": False}
    given = (torch.zeros(1, 64, 5, 496), torch.zeros(1, 48, 40, 248), torch.zeros(1, 128, 20, 124), torch.zeros(1, 64, 40, 248))
    torch.onnx.export(Exported(head.cpu().float().eval()), given, path, opset_version=17, input_names=["fold", "four", "deep", "mix"], output_names=["charts", "charts_size", "charts_along"],
                      dynamic_axes=dict(fold={0: "n", 3: "w2"}, four={0: "n", 3: "w4"}, deep={0: "n", 3: "w8"}, mix={0: "n", 3: "w4"}, charts={0: "n", 3: "w4"}, charts_size={0: "n", 3: "w4"},
                                        charts_along={0: "n", 2: "w2"}), **extra)


def main():
    ap = head_arguments(__doc__, 6, 110)
    ap.add_argument("--onward", help="charts.npz to go on from")
    ap.add_argument("--rate", type=float, default=3e-3)
    ap.add_argument("--channels", type=int, default=48)
    a = ap.parse_args()
    stop = time.time() + a.minutes * 60
    os.makedirs(a.out, exist_ok=True)
    torch.manual_seed(a.seed)
    torch.backends.cudnn.benchmark = True
    dev = "cuda" if torch.cuda.is_available() else "cpu"
    made = [s for s in store.read_all(a.data, "strips") if "charts" in s[1]]
    held, mine = [s for s in made if s[1]["held"]][:400], [s for s in made if not s[1]["held"]]
    data, check = Data(mine, dev), Data(held, dev)
    bank = torch.from_numpy(damage.pencil_bank(400 if dev == "cuda" else 20, W)).to(dev)
    trunk, head = net.Signs().to(dev).eval(), net.Charts(len(CHARTS), len(ALONG), c=a.channels).to(dev)
    z = np.load(os.path.join(a.start, "signs.npz"))
    net.load(trunk, {k: z[k] for k in z.files if not k.startswith("step:")})
    net.rounded(trunk, z)
    if a.onward:
        z = np.load(a.onward)
        net.load(head, {k: z[k] for k in z.files})
    opt, mean, begin, step = torch.optim.AdamW(head.parameters(), 1e-3, weight_decay=0.01), Average(head), time.time(), 0
    print(len(made), "strips,", len(data.img), "samples,", len(held), "held out", flush=True)
    while time.time() < stop:
        done = (time.time() - begin) / (stop - begin)
        for g in opt.param_groups:
            g["lr"] = a.rate * min(1, (step + 1) / 200) * (0.5 + 0.5 * math.cos(math.pi * min(1, done)))
        idx = torch.multinomial(data.w, a.batch, replacement=True)
        with torch.no_grad(), half(data.img):
            x, heat, boxes, along = data.batch(idx, bank, 1.0, bool(torch.rand(()) < 0.85))
            seen = trunk.within(x.contiguous(memory_format=torch.channels_last))
        with half(data.img):
            out = head(*seen)
        loss = loss_of(out, heat, boxes, along)
        net.descend(head, loss, opt)
        step += 1
        mean.take(head, min(0.998, step / (step + 20)))
        if step % 250 == 0 or step in (1, 20):
            print(step, "%.0f s" % (time.time() - begin), "%.4f" % float(loss.detach()), flush=True)
    head.load_state_dict(mean.state)
    np.savez(os.path.join(a.out, "charts.npz"), **{k: v.float().cpu().numpy() for k, v in head.state_dict().items()})
    found = [score(trunk, head, check, bank, h) for h in (False, True)]
    said = {name: report(parts) for name, parts in (("clean", found[:1]), ("damaged", found[1:]), ("together", found))}
    for name, part in said.items():
        print(name, json.dumps(part), flush=True)
    json.dump(dict(steps=step, seed=a.seed, charts=CHARTS, along=ALONG, **said), open(os.path.join(a.out, "charts.json"), "w"), indent=1)
    export(head, os.path.join(a.out, "charts.onnx"))


if __name__ == "__main__":
    main()
