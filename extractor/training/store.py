"""Strips and text crops in little space: one file of images, one of labels.

Strips are kept black and white at 16 px a space (Group 4) and come back gray at 8; crops in four grays (lossless WebP).
"""
import glob
import gzip
import io
import json
import os
from concurrent.futures import ThreadPoolExecutor

import cv2
import numpy as np
from PIL import Image

SHEET = 12000  # text crops lie side by side on sheets of about this width (WebP's limit is 16383)


def encode_strip(gray16):
    f = io.BytesIO()
    Image.fromarray((gray16 > 150).astype(np.uint8) * 255).convert("1").save(f, "TIFF", compression="group4")
    return f.getvalue()


def decode_strip(blob):
    bits = np.asarray(Image.open(io.BytesIO(blob)).convert("L"))
    h, w = bits.shape[0] // 2 * 2, bits.shape[1] // 2 * 2
    return cv2.resize(bits[:h, :w], (w // 2, h // 2), interpolation=cv2.INTER_AREA)


def encode_sheet(gray):
    q = (gray >> 6) * 85
    return cv2.imencode(".webp", cv2.cvtColor(q, cv2.COLOR_GRAY2BGR), [cv2.IMWRITE_WEBP_QUALITY, 101])[1].tobytes()


def decode_sheet(blob):
    return cv2.imdecode(np.frombuffer(blob, np.uint8), cv2.IMREAD_GRAYSCALE)


class Writer:
    """Appends images with their labels; crops are 48 px high and gathered on sheets."""

    def __init__(self, folder, name):
        os.makedirs(folder, exist_ok=True)
        self.base = os.path.join(folder, name)
        self.bin = open(self.base + ".bin", "wb")
        self.rows, self.sheet, self.width = [], [], 0

    def strip(self, blob, label):
        self.rows.append(dict(label, at=self.bin.tell(), n=len(blob)))
        self.bin.write(blob)

    def crop(self, gray, label):
        if self.width + gray.shape[1] > SHEET:
            self.flush()
        self.sheet.append(gray)
        self.rows.append(dict(label, x=self.width, w=gray.shape[1]))
        self.width += gray.shape[1]

    def flush(self):
        if self.sheet:
            at, blob = self.bin.tell(), encode_sheet(np.hstack(self.sheet))
            self.bin.write(blob)
            for r in self.rows[-len(self.sheet):]:
                r.update(at=at, n=len(blob))
            self.sheet, self.width = [], 0

    def close(self):
        self.flush()
        self.bin.close()
        with gzip.open(self.base + ".json.gz", "wt", encoding="utf-8") as f:
            json.dump(self.rows, f, separators=(",", ":"), ensure_ascii=False)


def read_all(data, name):
    """the set of this name in the folder and in its subfolders pack*"""
    return [r for d in [data, *sorted(glob.glob(os.path.join(data, "pack*")))] for r in read(d, name)]


def read(folder, name, threads=16):
    """-> list of (gray, label); nothing when the set is missing"""
    base = os.path.join(folder, name)
    if not os.path.exists(base + ".json.gz"):
        return []
    rows = json.load(gzip.open(base + ".json.gz", "rt", encoding="utf-8"))
    data = open(base + ".bin", "rb").read()
    sheets = bool(rows) and "x" in rows[0]
    spots = sorted({(r["at"], r["n"]) for r in rows})
    decode = decode_sheet if sheets else decode_strip
    with ThreadPoolExecutor(threads) as pool:
        images = dict(zip(spots, pool.map(lambda s: decode(data[s[0]:s[0] + s[1]]), spots)))
    if sheets:
        return [(images[r["at"], r["n"]][:, r["x"]:r["x"] + r["w"]], r) for r in rows]
    return [(images[r["at"], r["n"]], r) for r in rows]
