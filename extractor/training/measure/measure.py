"""measure.py --model FOLDER PAGES...: how the models do on pages with barmap/1 truth, the staves given.

Cuts strips along the truth's staves (slopes traced anew, since its outlines are axis-parallel), runs the ONNX models through
Node, prints barline F1 a page at 0.75 spaces and the share of rest counts, marks and meters read, and draws overlays (--draw).
Only for measuring: nothing here is used in training.
"""
import argparse
import glob
import json
import os
import subprocess
import sys
import tempfile

import cv2
import numpy as np

ROOM = 64  # px of page kept around the strip that crops are cut from: marks high over the staff reach beyond it
HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.dirname(HERE))
import charset  # noqa: E402
import cut  # noqa: E402
import decode  # noqa: E402


def midline(page, outline, space):
    """the middle line between the outline's ends, its slope and bend found from the five lines"""
    o = np.array(outline, float)
    a, b = (o[0] + o[3]) / 2, (o[1] + o[2]) / 2
    strip = 255.0 - cut.cut(page, [a, b], space, 16, 0)[0]
    n = 24
    edges = np.linspace(48, strip.shape[1] - 48, n + 1).astype(int)
    shifts = np.arange(-20, 21)
    score = np.zeros((n, len(shifts)))
    for i in range(n):
        part = strip[:, edges[i]:edges[i + 1]]
        row = np.minimum(part, 200).mean(1)
        for j, s in enumerate(shifts):
            score[i, j] = sum(row[176 + s + k * 16 - 1:176 + s + k * 16 + 2].max() for k in range(-2, 3)) - sum(row[176 + s + k * 8] for k in (-3, -1, 1, 3))
    score = score / (score.max(1, keepdims=True) + 1)
    best, t = (-1e9, 0, 0, 0), np.linspace(-1, 1, n)
    for c in np.arange(-12, 13, 1):
        for m in np.arange(-14, 15, 1):
            for q in (-4, -2, 0, 2, 4):
                y = np.round(c + m * t + q * (t * t - 0.4)).astype(int)
                if np.abs(y).max() > 20:
                    continue
                v = score[np.arange(n), y + 20].sum() - 0.02 * (abs(c) + abs(m) + abs(q))
                if v > best[0]:
                    best = (v, c, m, q)
    _, c, m, q = best
    u = np.linspace(0, 1, 9)
    d = (c + m * (2 * u - 1) + q * ((2 * u - 1) ** 2 - 0.4)) * space / 16
    return np.stack([a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u + d], -1)


def run(model, arrays):
    """runs a model over float arrays [1,1,H,W] -> list of dicts of outputs"""
    with tempfile.TemporaryDirectory() as tmp:
        job = []
        for i, x in enumerate(arrays):
            f = os.path.join(tmp, str(i))
            x.astype(np.float32).tofile(f)
            job.append(dict(file=f, dims=list(x.shape)))
        spec = os.path.join(tmp, "job.json")
        json.dump(job, open(spec, "w"))
        print(subprocess.run(["node", os.path.join(HERE, "run-onnx.mjs"), model, spec], check=True, capture_output=True, text=True).stdout.strip())
        return [{k: np.fromfile(v["file"], np.float32).reshape(v["dims"])[0] for k, v in j["out"].items()} for j in json.load(open(spec))]


def ink(gray, to):
    x = (255 - gray.astype(np.float32)) / 255
    return np.pad(x, ((0, 0), (0, -x.shape[1] % to)))[None, None]


def crop(wide, box):
    """the reader's view of a box: strip at 16 px a space -> [1,1,32,Wc]"""
    cx, cy, w, h = box[0] * 2 + ROOM, box[1] * 2 + ROOM, box[2] * 2 + 8, box[3] * 2 + 8
    ky = 32 / h
    inner = min(320, max(4, round(w * ky)))
    kx = inner / w
    f = min(kx, ky)
    src = cv2.GaussianBlur(wide, (0, 0), 0.45 / f) if f < 0.8 else wide
    m = np.array([[kx, 0, -kx * (cx - w / 2)], [0, ky, -ky * (cy - h / 2)]], np.float64)
    g = cv2.warpAffine(src, m, (inner, 32), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255)
    x = ink(g, 8)
    return np.pad(x, ((0, 0), (0, 0), (0, 0), (0, max(0, 48 - x.shape[3]))))


def read_text(logp):
    out, last = [], 0
    for c in logp.argmax(1):
        if c and c != last:
            out.append(charset.CHARS[c - 1])
        last = c
    return "".join(out)


def load(path):
    d = json.load(open(path))
    page = cv2.imread(os.path.join(os.path.dirname(path), d["pages"][0].get("source") or os.path.basename(path)[:-5] + ".png"), cv2.IMREAD_GRAYSCALE)
    if page is None:
        page = cv2.imread(path[:-5] + ".png", cv2.IMREAD_GRAYSCALE)
    flat = cut.flatten(page)
    out = []
    for s in d["pages"][0]["systems"]:
        o = s["outline"]
        bars = [b for b in d["bars"] if b["system"] == s["index"]]
        if o[3][1] - o[0][1] > 6 * s["staffSpace"] and not s.get("midline"):
            continue  # several staves
        line = s.get("midline") or midline(flat, o, s["staffSpace"])
        strip, axis = cut.cut(flat, line, s["staffSpace"], 8)
        wide, _ = cut.cut(flat, line, s["staffSpace"], 16, ROOM)
        place = lambda x: cut.place(axis, [x, np.mean([p[1] for p in o])] * 2, s["staffSpace"])[0]
        truth = []
        for b in bars:
            q = b["outline"]
            span = b.get("endSpan")
            x = place((q[1][0] + q[2][0]) / 2)
            lohi = sorted(place(p[0]) for p in span) if span else [x, x]
            truth.append((min(x, lohi[0]), max(x, lohi[1]), b.get("endBarline", "single"), place((q[0][0] + q[3][0]) / 2), b))
        out.append(dict(strip=strip, wide=wide, truth=truth, page=os.path.basename(path)[:-5], system=s["index"]))
    return out


def nearest_text(found, kinds, want, lo, hi):
    c = [f for f in found if kinds[f[0]] == want and lo <= f[1] <= hi]
    return max(c, key=lambda f: f[5]) if c else None


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("--model", required=True)
    ap.add_argument("--draw")
    ap.add_argument("pages", nargs="+")
    a = ap.parse_args()
    info = json.load(open(os.path.join(a.model, "signs.json")))
    kinds, th = info["kinds"], info["thresholds"]
    staves = [s for f in a.pages for s in load(f)]
    outs = run(os.path.join(a.model, "signs.onnx"), [ink(s["strip"], 16) for s in staves])
    jobs = []
    for s, o in zip(staves, outs):
        s["lines"] = decode.lines(o["lines"], th["barline"])
        s["boxes"] = decode.boxes(o["heat"], o["size"], [th[k] for k in kinds])
        for b in s["boxes"]:
            if kinds[b[0]] in ("count", "meter", "rehearsal", "bar-number"):
                jobs.append((s, b))
    texts = run(os.path.join(a.model, "numerals.onnx"), [crop(s["wide"], b[1:5]) for s, b in jobs])
    for s in staves:
        s["text"] = {}
    for (s, b), t in zip(jobs, texts):
        s["text"][b] = read_text(t["chars"])
    pages, tally = {}, {}
    for s in staves:
        p = pages.setdefault(s["page"], [0, 0, 0, []])
        left, extra = list(s["truth"]), []
        ok_type = 0
        first = min((t[0] for t in s["truth"]), default=0)
        start = min((t[3] for t in s["truth"]), default=0)
        for x, t, v in s["lines"]:
            near = [(max(0, l[0] - x, x - l[1]), l) for l in left if l[0] - 6 <= x <= l[1] + 6]
            if near:
                l = min(near, key=lambda n: n[0])[1]
                left.remove(l)
                ok_type += info["lines"][t] == l[2]
                p[0] += 1
            elif x < first - 8 and abs(x - start) < 40:
                pass  # a sign at the system's start: the truth has bar ends only
            else:
                extra.append((x, info["lines"][t], round(v, 2)))
        p[1] += len(s["truth"])
        p[2] += len(s["truth"]) - len(left) + len(extra)
        p[3] += [(s["system"], "missed", round(l[0]), l[2]) for l in left] + [(s["system"], "extra", round(x), t, v) for x, t, v in extra]
        s["missed"], s["extra"] = left, extra
        for lo, hi, _, x0, b in s["truth"]:
            if b.get("content") == "multi-rest":
                got = [f for f in s["boxes"] if kinds[f[0]] == "count" and x0 - 4 <= f[1] <= hi + 4]
                got = max(got, key=lambda f: f[5], default=None)
                bar = any(kinds[f[0]] in ("multi-rest", "block-rest") and x0 - 4 <= f[1] <= hi + 4 for f in s["boxes"])
                read = s["text"].get(got) if got else None
                t = tally.setdefault("count", [0, 0, []])
                t[1] += 1
                t[0] += read == str(b["count"])
                if read != str(b["count"]):
                    t[2].append((s["page"], s["system"], b["count"], read, "bar" if bar else "no bar"))
            if b.get("rehearsal"):
                got = [s["text"][f] for f in s["boxes"] if kinds[f[0]] == "rehearsal" and x0 - 48 <= f[1] <= hi - 8]
                t = tally.setdefault("rehearsal", [0, 0, []])
                t[1] += 1
                t[0] += b["rehearsal"]["text"] in got
                if b["rehearsal"]["text"] not in got:
                    t[2].append((s["page"], s["system"], b["rehearsal"]["text"], got))
            if (b.get("meter") or {}).get("printed"):
                m = b["meter"]
                got = [s["text"][f] for f in s["boxes"] if kinds[f[0]] == "meter" and x0 - (48 if x0 != start else 120) <= f[1] <= (x0 + 64 if x0 != start else x0 + 160)]
                same = {"C": "4/4", "C|": "2/2", "c": "4/4"}
                t = tally.setdefault("meter", [0, 0, []])
                t[1] += 1
                want = "%d/%d" % (m["beats"], m["unit"])
                t[0] += any(same.get(g, g) == want for g in got)
                if not any(same.get(g, g) == want for g in got):
                    t[2].append((s["page"], s["system"], want, got))
    tot = np.zeros(3)
    for name, (tp, n, f, errs) in sorted(pages.items()):
        tot += tp, n, f
        print("%-45s F1 %.3f  %s" % (name, 2 * tp / (n + f), errs))
    print("barline F1 %.4f  precision %.4f recall %.4f n %d" % (2 * tot[0] / (tot[1] + tot[2]), tot[0] / tot[2], tot[0] / tot[1], tot[1]))
    print("staves with every barline: %d of %d" % (sum(not s["missed"] and not s["extra"] for s in staves), len(staves)))
    for k, (r, n, errs) in tally.items():
        print("%s %d of %d; %s" % (k, r, n, errs))
    if a.draw:
        draw(staves, kinds, info, a.draw)


def draw(staves, kinds, info, folder):
    os.makedirs(folder, exist_ok=True)
    for name in sorted({s["page"] for s in staves}):
        rows = []
        for s in (s for s in staves if s["page"] == name):
            c = cv2.cvtColor(s["strip"], cv2.COLOR_GRAY2BGR)
            for l in s["truth"]:
                cv2.line(c, (int(l[0]), 106), (int(l[0]), 114), (0, 160, 0), 2)
            for x, t, v in s["lines"]:
                cv2.line(c, (int(x), 60), (int(x), 70), (0, 0, 255), 2)
                if t:
                    cv2.putText(c, info["lines"][t], (int(x) - 20, 58), 0, 0.32, (0, 0, 255), 1)
            for l in s["missed"]:
                cv2.circle(c, (int(l[0]), 88), 14, (255, 0, 255), 2)
            for x, *_ in s["extra"]:
                cv2.circle(c, (int(x), 88), 14, (0, 140, 255), 2)
            for b in s["boxes"]:
                k, cx, cy, w, h, v = b
                cv2.rectangle(c, (int(cx - w / 2), int(cy - h / 2)), (int(cx + w / 2), int(cy + h / 2)), (255, 120, 0), 1)
                cv2.putText(c, kinds[k][:5] + " " + s["text"].get(b, ""), (int(cx - w / 2), max(8, int(cy - h / 2) - 2)), 0, 0.32, (255, 0, 0), 1)
            rows.append(c)
        w = max(r.shape[1] for r in rows)
        cv2.imwrite(os.path.join(folder, name + ".png"), np.vstack([np.pad(r, ((0, 4), (0, w - r.shape[1]), (0, 0)), constant_values=200) for r in rows]))


if __name__ == "__main__":
    main()
