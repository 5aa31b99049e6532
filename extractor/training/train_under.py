"""train_under.py --data FOLDER --start FOLDER --out FOLDER [--minutes M]: the head for marks and bar numbers under their staff, on a finished sign network (signs.npz of unpack.py), which stays as it is.

Writes under.npz, under.onnx (inputs as net.Signs.within gives them, see net.Under; quantize_head.py --head under joins it to signs.onnx) and under.json with
thresholds and what it finds on held-out pages. DATA from pages made with `--under 1`, a third of which have nothing there but the next staff's signs.
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
from strips import KINDS, UNDER
from train_charts import MOST, Data
from train_signs import W, Average, half, head_arguments

LOW = 104  # px: the lowest staff line


def under(strip):
    """a strip of which only what stands under its staff is told"""
    g, label = strip
    boxes = [[UNDER.index(KINDS[k]), *b] for k, *b in label["boxes"] if KINDS[k] in UNDER and b[1] > LOW]
    return g, dict(label, charts=boxes, fills=[])


def low(heat):
    return heat[:, :, net.Under.TOP:]


def lower(boxes):
    """the boxes in the rows the head sees"""
    return (boxes[0], boxes[1] - 4 * net.Under.TOP, *boxes[2:])


class Exported(torch.nn.Module):
    """all 40 rows, so that it is decoded like the other boxes"""

    def __init__(self, head):
        super().__init__()
        self.head = head

    def forward(self, four, deep, mix):
        heat, size = self.head(four, deep, mix)
        size = torch.cat([size[:, :2] * 4, 8 * torch.exp(size[:, 2:].clamp(-3, 5))], 1)
        return tuple(F.pad(v, (0, 0, net.Under.TOP, 0)) for v in (torch.sigmoid(heat), size))


@torch.no_grad()
def score(trunk, head, data, bank, hurt):
    """boxes found by kind [(score, right)], and how many there were"""
    torch.manual_seed(1)
    out, got, n = Exported(head.eval()), {k: [] for k in UNDER}, dict.fromkeys(UNDER, 0)
    for i in range(0, len(data.img), 48):
        idx = torch.arange(i, min(i + 48, len(data.img)), device=data.img.device)
        x, _, boxes, _ = data.batch(idx, bank, 1.0 if hurt else 0.2, hurt)
        heat, size = (t.float().cpu().numpy() for t in out(*trunk.within(x)[1:]))
        bb = [t.cpu().numpy() for t in boxes]
        for m in range(len(idx)):
            truth = [(bb[4][m, k], *(t[m, k] for t in bb[:4])) for k in range(MOST) if bb[4][m, k] >= 0]
            for k, v in decode.match_boxes(decode.boxes(heat[m], size[m], [0.1] * len(UNDER)), truth).items():
                got[UNDER[k]] += v
            for t in truth:
                n[UNDER[t[0]]] += 1
    head.train()
    return got, n


def report(parts):
    out = {}
    for k in UNDER:
        n = sum(p[1][k] for p in parts)
        t, f1, pr, re = decode.best([g for p in parts for g in p[0][k]], n)
        out[k] = dict(threshold=t, f1=round(f1, 4), precision=round(pr, 4), recall=round(re, 4), n=n)
    return out


def export(head, path):
    extra = {} if torch.__version__ < "2" else {"dynamo": False}
    given = (torch.zeros(1, 48, 40, 248), torch.zeros(1, 128, 20, 124), torch.zeros(1, 64, 40, 248))
    torch.onnx.export(Exported(head.cpu().float().eval()), given, path, opset_version=17, input_names=["four", "deep", "mix"], output_names=["under", "under_size"],
                      dynamic_axes=dict(four={0: "n", 3: "w4"}, deep={0: "n", 3: "w8"}, mix={0: "n", 3: "w4"}, under={0: "n", 3: "w4"}, under_size={0: "n", 3: "w4"}), **extra)


def main():
    ap = head_arguments(__doc__, 4, 130)
    ap.add_argument("--rate", type=float, default=3e-3)
    a = ap.parse_args()
    stop = time.time() + a.minutes * 60
    os.makedirs(a.out, exist_ok=True)
    torch.manual_seed(a.seed)
    torch.backends.cudnn.benchmark = True
    dev = "cuda" if torch.cuda.is_available() else "cpu"
    made = [under(s) for s in store.read_all(a.data, "strips")]
    held, mine = [s for s in made if s[1]["held"]][:400], [s for s in made if not s[1]["held"]]
    data, check = Data(mine, dev, UNDER), Data(held, dev, UNDER)
    bank = torch.from_numpy(damage.pencil_bank(400 if dev == "cuda" else 20, W)).to(dev)
    trunk, head = net.Signs().to(dev).eval(), net.Under(len(UNDER)).to(dev)
    z = np.load(os.path.join(a.start, "signs.npz"))
    net.load(trunk, {k: z[k] for k in z.files if not k.startswith("step:")})
    net.rounded(trunk, z)
    opt, mean, begin, step = torch.optim.AdamW(head.parameters(), 1e-3, weight_decay=0.01), Average(head), time.time(), 0
    print("under:", len(made), "strips,", sum(bool(s[1]["charts"]) for s in made), "with signs,", len(data.img), "samples,", len(held), "held out", flush=True)
    while time.time() < stop:
        done = (time.time() - begin) / (stop - begin)
        for g in opt.param_groups:
            g["lr"] = a.rate * min(1, (step + 1) / 200) * (0.5 + 0.5 * math.cos(math.pi * min(1, done)))
        idx = torch.multinomial(data.w, a.batch, replacement=True)
        with torch.no_grad(), half(data.img):
            x, heat, boxes, _ = data.batch(idx, bank, 1.0, bool(torch.rand(()) < 0.85))
            seen = trunk.within(x.contiguous(memory_format=torch.channels_last))[1:]
        with half(data.img):
            got = head(*seen)
        loss = net.focal(got[0], low(heat)) + 0.5 * net.size_loss(got[1], *lower(boxes))
        net.descend(head, loss, opt)
        step += 1
        mean.take(head, min(0.998, step / (step + 20)))
        if step % 250 == 0 or step in (1, 20):
            print("under:", step, "%.0f s" % (time.time() - begin), "%.4f" % float(loss.detach()), flush=True)
    head.load_state_dict(mean.state)
    np.savez(os.path.join(a.out, "under.npz"), **{k: v.float().cpu().numpy() for k, v in head.state_dict().items()})
    found = [score(trunk, head, check, bank, h) for h in (False, True)]
    said = {name: report(parts) for name, parts in (("clean", found[:1]), ("damaged", found[1:]), ("together", found))}
    for name, part in said.items():
        print("under:", name, json.dumps(part), flush=True)
    json.dump(dict(steps=step, seed=a.seed, under=UNDER, **said), open(os.path.join(a.out, "under.json"), "w"), indent=1)
    export(head, os.path.join(a.out, "under.onnx"))


if __name__ == "__main__":
    main()
