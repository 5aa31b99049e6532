"""train_sounds.py --data FOLDER --start FOLDER --out FOLDER [--minutes M]: the head for notes and rests on a finished sign network (signs.npz of unpack.py), which stays as it is.

Writes sounds.npz, sounds.onnx (inputs as net.Signs.below gives them, see net.Sounds; graft.py joins it to signs.onnx) and sounds.json with what it finds on held-out pages.
"""
import contextlib
import json
import math
import os
import time

import numpy as np
import torch

import damage
import decode
import net
import store
from strips import SOUNDS, VALUED
from train_signs import W, Average, Data, half, hands, head_arguments


def targets(l):
    said = (l[5][:, :1] != -2).unsqueeze(-1).expand(-1, len(SOUNDS), -1).clone()
    said[:, VALUED] &= (l[5][:, :1] != -3).unsqueeze(-1)
    return net.sound_targets(*l[4:], len(SOUNDS), W), said


@torch.no_grad()
def score(trunk, head, data, bank, hurt):
    """{sound: [(score, right)]}, {sound: number there}, values of notes and rests [right, wrong, unknown, overlooked] on held-out samples"""
    torch.manual_seed(1)
    head.eval()
    got, n, worth = {s: [] for s in SOUNDS}, dict.fromkeys(SOUNDS, 0), {}
    for i in range(0, len(data.img), 64):
        idx = torch.arange(i, min(i + 64, len(data.img)), device=data.img.device)
        x, l, _ = data.batch(idx, bank, 1.0 if hurt else 0.2, hurt)
        p = torch.sigmoid(head(*trunk.below(x))).float().cpu().numpy()
        x, kind = (t.cpu().numpy() for t in l[4:])
        for m in range(len(idx)):
            for k, name in enumerate(SOUNDS):
                there = [(v, 0) for v, c in zip(x[m], kind[m]) if c == k and 3 < v < W - 3]
                got[name] += [f[:2] for f in decode.match_lines(decode.peaks(p[m, k], 0.1), there)]
                n[name] += len(there)
            values(p[m], [(v, SOUNDS[c]) for v, c in zip(x[m], kind[m]) if c >= 0 and 8 < v < W - 8], worth)
    head.train()
    return got, n, worth


def values(p, there, tally):
    """counts into tally, {sound with value: [right, wrong, unknown, overlooked]}"""
    found = decode.sounds(p, SOUNDS)
    places = {}
    for x, s in there:
        places.setdefault(round(x, 1), set()).add(s)
    for x, s in places.items():
        kind = "note" if "note" in s else "pause"
        v = [t for t in s if t.startswith(kind + "-")]
        if not v and "small" not in s:
            continue
        name = (v[0] if v else "small") + "." * ("dot" in s) + "t" * ("tuplet" in s)
        truth = 4 / int(v[0].split("-")[1]) * (1.5 if "dot" in s else 1) * (2 / 3 if "tuplet" in s else 1) if v else 0.0
        near = min((f for f in found if f[1] == kind), key=lambda f: abs(f[0] - x), default=None)
        k = 3 if near is None or abs(near[0] - x) > 6 else 2 if near[2] is None else 0 if abs(near[2] - truth) < 1e-6 else 1
        tally.setdefault(name, [0, 0, 0, 0])[k] += 1


def export(head, path):
    class Likely(torch.nn.Module):
        def __init__(self):
            super().__init__()
            self.head = head.cpu().float().eval()

        def forward(self, early, fold, four):
            return torch.sigmoid(self.head(early, fold, four))

    extra = {} if torch.__version__ < "2" else {"dynamo": False}
    torch.onnx.export(Likely(), (torch.zeros(1, 32, 20, 496), torch.zeros(1, 64, 5, 496), torch.zeros(1, 48, 40, 248)), path, opset_version=17, input_names=["early", "fold", "four"], output_names=["sounds"],
                      dynamic_axes=dict(early={0: "n", 3: "w2"}, fold={0: "n", 3: "w2"}, four={0: "n", 3: "w4"}, sounds={0: "n", 2: "w2"}), **extra)


def main():
    ap = head_arguments(__doc__, 4, 90)
    ap.add_argument("--hand", type=int, default=2500)
    ap.add_argument("--onward", help="sounds.npz to go on from")
    ap.add_argument("--rate", type=float, default=4e-3)
    ap.add_argument("--again", type=int, default=3, help="how often a batch is learned from, on the average")
    ap.add_argument("--kept", type=int, default=100, help="batches kept for that; one takes 0.25 GB")
    a = ap.parse_args()
    stop = time.time() + a.minutes * 60
    os.makedirs(a.out, exist_ok=True)
    torch.manual_seed(a.seed)
    dev = "cuda" if torch.cuda.is_available() else "cpu"
    made = [s for s in store.read_all(a.data, "strips") if "sounds" in s[1]]
    held = [s for s in made if s[1]["held"]][:500]
    mine = [s for s in made if not s[1]["held"]]
    data, check = Data(mine + hands(a), dev), Data(held, dev)
    bank = torch.from_numpy(damage.pencil_bank(400, W)).to(dev)
    trunk, head = net.Signs().to(dev).eval(), net.Sounds().to(dev)
    z = np.load(os.path.join(a.start, "signs.npz"))
    net.load(trunk, {k: z[k] for k in z.files if not k.startswith("step:")})
    net.rounded(trunk, z)
    if a.onward:
        z = np.load(a.onward)
        head.load_state_dict({k: torch.from_numpy(z[k]) for k in z.files})
    # pages by LilyPond are slow to make and few, so theirs are drawn three times as often
    often = torch.tensor([3.0 if i < len(mine) and mine[i][1].get("engraver") == "lilypond" else 1.0 for i in data.src], device=dev)
    kept, opt, mean, begin, step = [], torch.optim.AdamW(head.parameters(), 1e-3, weight_decay=0.01), Average(head), time.time(), 0
    print(len(made), "strips,", len(data.img), "samples,", len(held), "held out", flush=True)
    while time.time() < stop:
        done = (time.time() - begin) / (stop - begin)
        for g in opt.param_groups:
            g["lr"] = a.rate * min(1, (step + 1) / 200) * (0.5 + 0.5 * math.cos(math.pi * min(1, done)))
        idx = torch.multinomial(often, a.batch, replacement=True)
        with torch.no_grad(), half(data.img) if dev == "cuda" else contextlib.nullcontext():
            x, l, _ = data.batch(idx, bank)
            seen = trunk.below(x.contiguous(memory_format=torch.channels_last))
            fresh = seen, targets(l)
        if len(kept) < a.kept:
            kept.append(fresh)
        else:
            kept[int(torch.randint(len(kept), ()))] = fresh
        for turn in range(a.again):  # damage and trunk take longest, so each batch is learned from several times
            seen, (want, said) = kept[int(torch.randint(len(kept), ()))] if turn else fresh
            with half(data.img) if dev == "cuda" else contextlib.nullcontext():
                out = head(*seen)
            loss = net.line_loss(out, want, said)
            opt.zero_grad(set_to_none=True)
            loss.backward()
            opt.step()
        step += 1
        mean.take(head, min(0.998, step / (step + 20)))
        if step % 250 == 0 or step == 1:
            print(step, "%.0f s" % (time.time() - begin), "%.4f" % float(loss.detach()), flush=True)
    head.load_state_dict(mean.state)
    np.savez(os.path.join(a.out, "sounds.npz"), **{k: v.float().cpu().numpy() for k, v in head.state_dict().items()})
    found, report = [score(trunk, head, check, bank, h) for h in (False, True)], {}
    for name, parts in (("clean", found[:1]), ("damaged", found[1:]), ("together", found)):
        report[name] = dict(values={k: [sum(p[2].get(k, [0] * 4)[i] for p in parts) for i in range(4)] for k in sorted({k for p in parts for k in p[2]})})
        print(name, "values [right, wrong, unknown, overlooked]", np.sum(list(report[name]["values"].values()), 0), report[name]["values"], flush=True)
        for s in SOUNDS:
            n = sum(p[1][s] for p in parts)
            t, f1, pr, re = decode.best([g for p in parts for g in p[0][s]], n)
            report[name][s] = dict(threshold=t, f1=round(f1, 4), precision=round(pr, 4), recall=round(re, 4), n=n)
        print(name, {k: (report[name][k]["f1"], report[name][k]["n"], report[name][k]["threshold"]) for k in SOUNDS}, flush=True)
    json.dump(dict(steps=step, seed=a.seed, **report), open(os.path.join(a.out, "sounds.json"), "w"), indent=1)
    export(head, os.path.join(a.out, "sounds.onnx"))


if __name__ == "__main__":
    main()
