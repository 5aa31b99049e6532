"""strips.py PAGES... --out FOLDER: made pages (NAME.png + NAME.signs.json) to packed strips and text crops.

Strips carry two spaces of page beyond the strip on every side, so that shifts, bends and scale errors can be drawn later
without blank edges. Text crops are scaled as the reader sees them (32 px high) with 8 px of page around.
"""
import argparse
import glob
import gzip
import json
import os
import zlib
from concurrent.futures import ProcessPoolExecutor

import cv2
import numpy as np

import cut
import store

SLACK = 16  # strip pixels
LINES = ["single", "double", "final", "repeat-start", "repeat-end", "repeat-both", "dashed"]
KINDS = ["multi-rest", "block-rest", "rest", "bar-repeat", "bar-repeat-2", "count", "meter", "rehearsal", "bar-number",
         "ending", "segno", "coda", "fermata", "caesura", "word", "heading", "key"]  # only ever added to
# along the staff: note heads, any rest inside a bar with music, printed values of both, dots and tuplets of both, notes of grace and of cues; only ever added to
SOUNDS = ["note", "pause", "pause-2", "pause-4", "pause-8", "pause-16", "dot",
          "note-1", "note-2", "note-4", "note-8", "note-16", "note-32", "pause-32", "tuplet", "small"]
# boxes of the head for charts, those that the sign network has too among them; only ever added to
CHARTS = ["slash", "chord", "lyric", "dynamic", "counter", "rest", "bar-repeat", "bar-repeat-2", "count", "meter", "rehearsal", "bar-number", "word"]
ALONG = ["line", "silent", "slashed", "same"]  # of the same head along the staff: barlines, bars of rest (whatever cues are in them), of slashes, of "same again"; only ever added to
UNDER = ["rehearsal", "bar-number"]  # of the head for what stands under its staff
FILLS = {"rest": 1, "multi-rest": 1, "slashed": 2, "bar-repeat": 3, "bar-repeat-2": 3}
VALUED = slice(6, None)  # channels about which nothing is known where a hand's note heads don't tell their values
READ = {"count", "meter", "rehearsal", "bar-number", "ending", "word", "heading", "key"}
ENDING = 44  # strip pixels: of a bracket only its beginning, with the numbers, is a box; how far it goes is the ninth channel along the staff
DOTS = 0.4  # spaces: the dots of a repeat move the middle of its box by about this much from the middle of its lines
HELD_FACES = {"gootville", "lilyjazz", "abcm2ps"}  # never trained on


def begins(box):
    """the box of a whole bracket -> the box of its beginning"""
    cx, cy, w, h = box
    left, w = cx - w / 2, min(w, ENDING)
    return left + w / 2, cy, w, h


def numbers(box):
    """the box of a bracket's beginning -> where its numbers stand, inside hook and line, as the extractor cuts it"""
    cx, cy, w, h = box
    left, top = cx - w / 2 + 4, cy - h / 2 + 4
    w, h = max(4, min(w - 4, 36)), max(4, h - 4)
    return left + w / 2, top + h / 2, w, h


def sounds(sign):
    """the channels a note head or rest belongs to"""
    text = sign.get("text", "")
    value = "%s-%s" % (sign["kind"], text.rstrip("."))
    return [sign["kind"]] + [value] * (value in SOUNDS) + ["dot"] * text.endswith(".") + ["tuplet"] * sign.get("tuplet", False) + ["small"] * sign.get("small", False)


def line_x(sign, cx):
    return cx + 8 * DOTS * {"repeat-start": -1, "repeat-end": 1}.get(sign.get("type"), 0)


def crop(strip16, box, slack=2 * SLACK):
    """-> 48 px high crop with 8 px around the reader's view, and the width of that view; None when unreadably flat"""
    cx, cy, w, h = box
    w, h = w * 2 + 8, h * 2 + 8
    if h < 10 or w < 6:
        return None
    ky = 32 / h
    inner = min(320, max(4, round(w * ky)))
    kx = inner / w
    m = np.array([[kx, 0, 8 - kx * (cx * 2 + slack - w / 2)], [0, ky, 8 - ky * (cy * 2 + slack - h / 2)]], np.float64)
    f = min(kx, ky)
    src = strip16
    if f < 0.8:  # smooth before shrinking
        src = cv2.GaussianBlur(src, (0, 0), 0.45 / f)
    return cv2.warpAffine(src, m, (inner + 16, 48), flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255)


def page_items(path):
    """-> ([(strip, label)], [(crop, label)]) of one made page"""
    truth = json.load(open(path, encoding="utf-8"))
    page = cv2.imread(path[:-len(".signs.json")] + ".png", cv2.IMREAD_GRAYSCALE)
    if page is None:
        return [], []
    face = str(truth.get("face", ""))
    held = face.lower() in HELD_FACES or str(truth.get("engraver", "")).lower() in HELD_FACES
    held = held or zlib.crc32(os.path.basename(path).encode()) % 29 == 0
    meta = dict(page=os.path.basename(path)[:-len(".signs.json")], engraver=truth.get("engraver"), face=face, held=held)
    told = any(s["kind"] in ("note", "pause") for staff in truth["staves"] for s in staff["signs"])
    strips, crops = [], []
    for staff in truth["staves"]:
        space = float(staff["staffSpace"])
        wide, axis = cut.cut(page, staff["midline"], space, 16, 2 * SLACK)
        lines, boxes, spans, heard, charts, fills = [], [], [], set(), [], []
        for sign in staff["signs"]:
            x0, y0, x1, y1 = sign["box"]
            if x1 - x0 <= 0 or y1 - y0 <= 0:
                continue
            box = cut.place(axis, sign["box"], space)
            if sign["kind"] == "barline":
                lines.append([round(line_x(sign, box[0]), 2), LINES.index(sign.get("type", "single"))])
            elif sign["kind"] in ("note", "pause"):
                heard |= {(round(box[0] / 3) * 3, SOUNDS.index(s)) for s in sounds(sign)}
            elif sign["kind"] == "ending":
                spans.append([round(box[0] - box[2] / 2, 2), round(box[0] + box[2] / 2, 2)])
                box = begins(box)
            name = {"dynam": "dynamic", "rptnum": "counter"}.get(sign["kind"], sign["kind"])
            if name in CHARTS:
                charts.append([CHARTS.index(name)] + [round(v, 2) for v in box])
            if name == "bar" and sign["text"] in FILLS:
                fills.append([round(box[0] - box[2] / 2, 2), round(box[0] + box[2] / 2, 2), FILLS[sign["text"]]])
            if sign["kind"] in KINDS and (sign["kind"] != "ending" or sign.get("text")):
                boxes.append([KINDS.index(sign["kind"])] + [round(v, 2) for v in box])
            text = sign.get("text")
            if text and text != "?" and sign["kind"] in READ and box[3] < 64:
                c = crop(wide, numbers(box) if sign["kind"] == "ending" else box)
                if c is not None:
                    crops.append((c, dict(text=text, kind=sign["kind"], face=face, held=held)))
        strips.append((store.encode_strip(wide), dict(meta, lines=lines, boxes=boxes, spans=spans, **(dict(sounds=sorted(heard)) if told else {}), **(dict(charts=charts, fills=fills) if truth.get("charts") else {}))))
    return strips, crops


def safe(path):
    try:
        return page_items(path)
    except (KeyError, ValueError, IndexError, cv2.error) as e:
        print("left out:", path, repr(e), flush=True)
        return [], []


def main():
    ap = argparse.ArgumentParser(description=__doc__)
    ap.add_argument("pages", nargs="+")
    ap.add_argument("--out", required=True)
    ap.add_argument("--crop-mib", type=float, default=14, help="stop adding crops of words at about this size")
    ap.add_argument("--strip-mib", type=float, default=38)
    ap.add_argument("--jobs", type=int, default=2)
    ap.add_argument("--without", nargs="*", default=[], help="folders packed before: their pages are left out")
    a = ap.parse_args()
    files = sorted(f for d in a.pages for f in glob.glob(os.path.join(d, "**", "*.signs.json"), recursive=True))
    packed = {r["page"] for d in a.without for r in json.load(gzip.open(os.path.join(d, "strips.json.gz"), "rt"))}
    files = [f for f in files if os.path.basename(f)[:-len(".signs.json")] not in packed]
    files.sort(key=lambda f: zlib.crc32(os.path.basename(f).encode()))  # a mixed order, the same every time
    strips, crops = store.Writer(a.out, "strips"), store.Writer(a.out, "crops")
    full = 0
    with ProcessPoolExecutor(a.jobs) as pool:
        for s, c in pool.map(safe, files, chunksize=4):
            if strips.bin.tell() < a.strip_mib * 2**20:
                for item in s:
                    strips.strip(*item)
            else:
                full += 1
            for img, label in c:
                size = crops.bin.tell() / 2**20 / a.crop_mib
                if size < 1 and (size < 0.7 or label["kind"] not in ("word", "heading")):
                    crops.crop(img, label)
    print(len(files), "pages;", len(strips.rows), "strips,", strips.bin.tell() >> 10, "KiB;", len(crops.rows), "crops,",
          crops.bin.tell() >> 10, "KiB;", full, "pages beyond the size limit", flush=True)
    strips.close()
    crops.close()


if __name__ == "__main__":
    main()
