"""Training of the sign network: data onto the GPU, damage and training there, thresholds from held-out pages, export."""
import argparse
import contextlib
import copy
import datetime
import glob
import json
import math
import multiprocessing
import os
import time
from concurrent.futures import ProcessPoolExecutor

import numpy as np
import torch

import damage
import decode
import hand
import lettering
import net
import stickers
import store
from strips import KINDS, LINES, SLACK

W = 1024  # strip px a sample shows
SPAN = W + 2 * SLACK + 64  # px kept of a strip for one sample
MOST, HEARD = 64, 480
HIGH = torch.tensor([k in ("rehearsal", "segno", "coda", "bar-number", "ending", "heading") for k in KINDS])  # found over the strip's edge too


def hands(a, jobs=14):
    fonts = sorted(glob.glob(os.path.join(a.data, "fonts", "hand", "*")))
    n = max(1, a.hand // 200)
    with ProcessPoolExecutor(min(jobs, os.cpu_count() or 1)) as pool:
        parts = pool.map(hand.many, [(a.seed * 1000 + i, math.ceil(a.hand / n), fonts) for i in range(n)])
        return [s for p in parts for s in p]


ITEMS = []  # what worker processes inherit


def sticker_job(job):
    seed, lo, hi, faces = job
    return stickers.many((seed, ITEMS[lo:hi], faces))


def stickered(a, strips, jobs=24):
    """every strip once more, with other signs added"""
    faces = [f for f in lettering.faces(os.path.join(a.data, "fonts")) if "music" not in f]
    if not faces:
        return []
    ITEMS[:] = strips
    stickers.gather(strips)
    todo = [(a.seed * 31 + i, i, min(i + 40, len(strips)), faces) for i in range(0, len(strips), 40)]
    with multiprocessing.get_context("fork").Pool(min(jobs, os.cpu_count() or 1)) as pool:
        out = [s for part in pool.imap(sticker_job, todo) for s in part]
    ITEMS.clear()
    return out


def windows(strips):
    """strips -> arrays of samples: images [N,192,SPAN], lines [N,MOST,2], boxes [N,MOST,5], spans [N,8,2], sounds [N,HEARD,2] (first -2 where nobody said what sounds, -3 where nobody said what notes are worth) in the window's coordinates"""
    imgs, lines, boxes, spans, heard, src = [], [], [], [], [], []
    for n, (g, label) in enumerate(strips):
        for at in range(0, max(1, g.shape[1] - SPAN + 300), 700):
            part = g[:, at:at + SPAN]
            img = np.full((160 + 2 * SLACK, SPAN), 255, np.uint8)
            h = min(img.shape[0], g.shape[0])
            img[:h, :part.shape[1]] = part[:h]
            l = np.full((MOST, 2), -1.0, np.float32)
            ls = [(x - at, t) for x, t in label["lines"] if -8 < x - at < SPAN][:MOST]
            b = np.full((MOST, 5), -1.0, np.float32)
            bs = [(k, x - at, y, w, hh) for k, x, y, w, hh in label["boxes"] if -8 < x - at < SPAN][:MOST]
            if ls:
                l[:len(ls)] = ls
            if bs:
                b[:len(bs)] = bs
            sp = np.full((8, 2), -1e4, np.float32)
            ss = [(x0 - at, x1 - at) for x0, x1 in label.get("spans", []) if x1 > at and x0 < at + SPAN][:8]
            if ss:
                sp[:len(ss)] = ss
            so = np.full((HEARD, 2), -1.0, np.float32)
            if "sounds" in label:
                ss = [(-1, -3)] * label.get("vague", False) + [(x - at, k) for x, k in label["sounds"] if -8 < x - at < SPAN][:HEARD - 1]
                if ss:
                    so[:len(ss)] = ss
            else:
                so[:, 1] = -2
            heard.append(so)
            imgs.append(img), lines.append(l), boxes.append(b), spans.append(sp), src.append(n)
            if at + SPAN >= g.shape[1]:
                break
    return np.stack(imgs), np.stack(lines), np.stack(boxes), np.stack(spans), np.stack(heard), np.array(src)


def weights(lines, boxes):
    """samples with rare signs are drawn more often"""
    n = len(lines)
    w = np.ones(n)
    for arr, col, ids in ((lines, 1, range(1, 7)), (boxes, 0, range(len(KINDS)))):
        for k in ids:
            has = (arr[:, :, col] == k).any(1)
            if has.any():
                w += has * min(4.0, 0.04 / has.mean())
    return w


class Data:
    def __init__(self, strips, dev):
        img, lines, boxes, spans, heard, self.src = windows(strips)
        self.img = torch.from_numpy(img).to(dev)
        self.lines, self.boxes, self.spans, self.heard = (torch.from_numpy(v).to(dev) for v in (lines, boxes, spans, heard))
        self.w = torch.from_numpy(weights(lines, boxes)).to(dev)

    def batch(self, idx, bank, strength=1.0, hurt=True):
        """-> images, lines (x, kind), boxes (cx, cy, w, h, kind), kinds -1 where nothing"""
        raw = (255 - self.img[idx].unsqueeze(1).float()) / 255
        geo = damage.Geometry(len(idx), W, raw.device, strength, SLACK)
        x = geo.warp(raw)
        if hurt:
            x = damage.damage(x, bank)
        l, b = self.lines[idx], self.boxes[idx]
        lx = geo.follow(l[:, :, 0], torch.full_like(l[:, :, 0], 88.0))[0]
        lk = torch.where((lx > 0) & (lx < W), l[:, :, 1], torch.full_like(lx, -1)).long()
        cx, cy, kx, ky = geo.follow(b[:, :, 1], b[:, :, 2])
        h = b[:, :, 4] * ky
        seen = (cy > 0) | HIGH.to(x.device)[b[:, :, 0].long().clamp(min=0)] & (cy + h / 2 > 5)
        bk = torch.where((cx > 0) & (cx < W) & seen & (cy < 160), b[:, :, 0], torch.full_like(cx, -1)).long()
        s = self.spans[idx]
        s0, s1 = (geo.follow(v.clamp(min=-200), torch.full_like(v, 20.0))[0] for v in (s[:, :, 0], s[:, :, 1]))
        s1 = torch.where(s[:, :, 1] > -1e3, s1, s0 - 1)
        o = self.heard[idx]
        ox = geo.follow(o[:, :, 0], torch.full_like(o[:, :, 0], 88.0))[0]
        ok = torch.where((ox > 0) & (ox < W) | (o[:, :, 1] < -1), o[:, :, 1], torch.full_like(ox, -1)).long()
        return x, (lx, lk, s0, s1, ox, ok), (cx, cy, b[:, :, 3] * kx, h, bk)


def half(x):
    return torch.autocast("cuda", torch.bfloat16) if x.is_cuda else contextlib.nullcontext()


def loss_of(model, x, l, b):
    with half(x):
        lines, heat, size = model(x.contiguous(memory_format=torch.channels_last))
    with torch.no_grad():
        lt = net.line_targets(*l[:2], W)
        st = net.span_targets(*l[2:4], W)
        ht = net.box_targets(*b, len(KINDS), W)
    a, c, d, e = net.line_loss(lines[:, :8], lt), net.focal(heat, ht), net.size_loss(size, *b), net.span_loss(lines[:, 8], st)
    return a + c + 0.5 * d + 0.5 * e, (a, c, d, e)


def head_arguments(doc, minutes, seed):
    """what all programs are asked that train a head on the network of signs"""
    ap = argparse.ArgumentParser(description=doc)
    ap.add_argument("--data", required=True)
    ap.add_argument("--start", required=True, help="folder with signs.npz")
    ap.add_argument("--out", required=True)
    ap.add_argument("--minutes", type=float, default=minutes)
    ap.add_argument("--seed", type=int, default=seed)
    ap.add_argument("--batch", type=int, default=96)
    return ap


class Average:
    """running mean of the weights, which is what is kept"""

    def __init__(self, model):
        self.state = {k: v.detach().clone() for k, v in model.state_dict().items()}

    @torch.no_grad()
    def take(self, model, keep):
        now = model.state_dict()
        names = [k for k, v in now.items() if v.dtype.is_floating_point]
        old = [self.state[k] for k in names]
        torch._foreach_mul_(old, keep)
        torch._foreach_add_(old, [now[k] for k in names], alpha=1 - keep)


@torch.no_grad()
def score(model, data, bank, hurt, seed=1):
    """what is found on held-out samples: (barlines found, barlines there, types right), (boxes found, boxes there) by kind"""
    torch.manual_seed(seed)
    model.eval()
    out, got_l, all_l, typed, got_b, all_b, under = net.Exported(model), [], 0, [], {}, {}, np.zeros(3)
    for i in range(0, len(data.img), 64):
        idx = torch.arange(i, min(i + 64, len(data.img)), device=data.img.device)
        x, l, b = data.batch(idx, bank, 1.0 if hurt else 0.2, hurt)
        L, H, S = (t.float().cpu().numpy() for t in out(x))
        want = net.span_targets(*l[2:4], W).cpu().numpy() > 0.5
        under += [((L[:, 8] > 0.5) & want).sum(), (L[:, 8] > 0.5).sum(), want.sum()]
        lx, lk, bb = l[0].cpu().numpy(), l[1].cpu().numpy(), [t.cpu().numpy() for t in b]
        for n in range(len(idx)):
            truth = [(lx[n, m], lk[n, m]) for m in range(MOST) if lk[n, m] >= 0 and 3 < lx[n, m] < W - 3]
            m = decode.match_lines(decode.lines(L[n], 0.08), truth)
            got_l += m
            all_l += len(truth)
            typed += [t for s, r, t in m if r and s > 0.4]
            truth = [(bb[4][n, m], *(t[n, m] for t in bb[:4])) for m in range(MOST) if bb[4][n, m] >= 0]
            for k, v in decode.match_boxes(decode.boxes(H[n], S[n], [0.1] * len(KINDS)), truth).items():
                got_b.setdefault(k, []).extend(v)
            for t in truth:
                all_b[t[0]] = all_b.get(t[0], 0) + 1
    model.train()
    return (got_l, all_l, typed), (got_b, all_b), under


def figures(scores):
    """figures by sign of one or several scores together"""
    got = [g for l, *_ in scores for g in l[0]]
    line = decode.best(got, sum(l[1] for l, *_ in scores))
    typed = [t for l, *_ in scores for t in l[2]]
    m = {"barline": dict(threshold=line[0], f1=line[1], precision=line[2], recall=line[3], n=sum(l[1] for l, *_ in scores), type=float(np.mean(typed)) if typed else 0)}
    u = sum(s[2] for s in scores)
    m["under-ending"] = dict(threshold=0.5, f1=float(2 * u[0] / max(1, u[1] + u[2])), n=int(u[2]))
    for k, name in enumerate(KINDS):
        n = sum(s[1][1].get(k, 0) for s in scores)
        found = [f for s in scores for f in s[1][0].get(k, [])]
        top, low = decode.best(found, n), decode.best(found, n, True)
        th = low[0] if n >= 100 else max(0.35, min(0.6, low[0]))  # a threshold from few signs is chance
        m[name] = dict(threshold=max(0.2, th), f1=top[1], precision=top[2], recall=top[3], n=n)
    return m


def export(model, path):
    model = model.cpu().float().eval()
    x = torch.zeros(2, 1, 160, 992)
    names = dict(strip={0: "n", 3: "w"}, lines={0: "n", 2: "w2"}, heat={0: "n", 3: "w4"}, size={0: "n", 3: "w4"})
    extra = {} if torch.__version__ < "2" else {"dynamo": False}
    torch.onnx.export(net.Exported(model), x, path, opset_version=17, input_names=["strip"], output_names=["lines", "heat", "size"], dynamic_axes=names, **extra)


def save(a, model, metrics):
    """weights first, then what can be made again from them"""
    np.savez(os.path.join(a.out, "signs.npz"), **{k: v.float().cpu().numpy() for k, v in model.state_dict().items()})
    worn = metrics.get("together", {})
    info = dict(version=a.version, date=datetime.date.today().isoformat(), seed=a.seed, kinds=KINDS, lines=LINES,
                thresholds={k: worn.get(k, {}).get("threshold", 0.35) for k in ["barline", *KINDS]})
    json.dump(info, open(os.path.join(a.out, "signs.json"), "w"), indent=1)
    json.dump(dict(signs=metrics), open(os.path.join(a.out, "part-signs.json"), "w"))
    export(copy.deepcopy(model), os.path.join(a.out, "signs.onnx"))


def run(a):
    dev = "cuda" if torch.cuda.is_available() else "cpu"
    t0 = time.time()
    made = store.read_all(a.data, "strips")
    drawn = hands(a)
    held = [s for s in made if s[1]["held"]][:700]
    mine = [s for s in made if not s[1]["held"]]
    print("signs: %d strips of pages, %d held out, %d drawn by hand; %.0f s" % (len(mine), len(held), len(drawn), time.time() - t0), flush=True)
    more = stickered(a, mine)
    print("signs: %d strips with more signs; %.0f s" % (len(more), time.time() - t0), flush=True)
    mine += more
    hold_hand, drawn = drawn[:100], drawn[100:]
    data = Data(mine + drawn, dev)
    pages = torch.from_numpy(data.src < len(mine)).to(dev)
    p = data.w.clone()
    share = 0.7 if len(mine) else 0.0  # of the samples drawn, those of pages
    p[pages] *= share / p[pages].sum().clamp(min=1e-9)
    p[~pages] *= (1 - share) / p[~pages].sum().clamp(min=1e-9)
    check = Data(held + hold_hand, dev)
    bank = torch.from_numpy(damage.pencil_bank(400, W)).to(dev)
    model = net.Signs(**net.SIZES[a.size]).to(dev).to(memory_format=torch.channels_last)
    old = os.path.join(a.start or "", "signs.npz")
    if a.start and os.path.exists(old):
        z = np.load(old)
        net.load(model, {k: z[k] for k in z.files})
    opt = torch.optim.AdamW(model.parameters(), 1e-3, weight_decay=0.02, betas=(0.9, 0.98), foreach=True)
    mean = Average(model)
    peak, begin, step, log = a.rate, time.time(), 0, []
    print("signs: %d samples on %s; %.0f s" % (len(data.img), dev, time.time() - t0), flush=True)
    stop = a.deadline - (28 if dev == "cuda" else 10)
    while time.time() < stop:
        done = (time.time() - begin) / max(1e-9, stop - begin)
        lr = peak * min(1, (step + 1) / 300) * (0.5 + 0.5 * math.cos(math.pi * min(1, done)))
        for g in opt.param_groups:
            g["lr"] = lr
        idx = torch.multinomial(p, a.batch, replacement=True)
        with torch.no_grad():
            x, l, b = data.batch(idx, bank)
        loss, parts = loss_of(model, x, l, b)
        net.descend(model, loss, opt)
        step += 1
        mean.take(model, min(0.998, step / (step + 20)))
        if step == 60 and dev == "cuda" and a.profile:
            with torch.profiler.profile(activities=[torch.profiler.ProfilerActivity.CUDA]) as prof:
                for _ in range(4):
                    xx, ll, bb = data.batch(idx, bank)
                    loss_of(model, xx, ll, bb)[0].backward()
                opt.zero_grad(set_to_none=True)
            print(prof.key_averages().table(sort_by="cuda_time_total", row_limit=25, max_name_column_width=70), flush=True)
        if step % 250 == 0 or step < 4:
            log.append([step, round(time.time() - begin, 1), *(round(float(v.detach()), 3) for v in parts)])
            print("signs:", *log[-1], "lr %.5f" % lr, flush=True)
    model.load_state_dict(mean.state)
    metrics = dict(steps=step, log=log[::8], pages=len(mine), hand=len(drawn), device=torch.cuda.get_device_name() if dev == "cuda" else "cpu")
    save(a, model, metrics)
    print("signs: saved after %.0f s" % (time.time() - t0), flush=True)
    clean, worn = score(model, check, bank, False), score(model, check, bank, True)
    metrics.update(clean=figures([clean]), damaged=figures([worn]), together=figures([clean, worn]))
    save(a, model, metrics)
    for name in ("clean", "damaged"):
        print(name, {k: (round(v["f1"], 4), v["n"]) for k, v in metrics[name].items()}, flush=True)
    print("thresholds", {k: v["threshold"] for k, v in metrics["together"].items()}, flush=True)
    print("signs: done after %.0f s" % (time.time() - t0), flush=True)
