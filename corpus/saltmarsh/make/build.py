"""Makes the demo book: `./build` in this folder. Writes the page images and their truth into the folder above."""
import json
import sys
import tempfile
from pathlib import Path

import cv2
import numpy as np

import lily
import photo
import saltmarsh
import score
import truth
import vrv

HERE = Path(__file__).resolve().parent
OUT = HERE.parent
PART = dict(title="Saltmarsh", part="Bass")


def png(path, gray):
    """a PNG of sixteen grays: half the size, and nothing lost that matters on paper"""
    levels = (np.round(gray.astype(np.float32) / 17) * 17).astype(np.uint8)
    cv2.imwrite(str(path), levels, [cv2.IMWRITE_PNG_COMPRESSION, 9, cv2.IMWRITE_PNG_STRATEGY, 0])


def make(page, engraved, facing):
    """writes one page's image -> (file name, size, forward map)"""
    gray = engraved[page.index][0]
    stem = "page-%02d" % page.index
    for old in OUT.glob(stem + ".*"):
        old.unlink()
    if page.kind == "photo":
        img, forward = photo.photograph(gray, facing, 700 + page.index, page.index % 2 == 1, page.photo.get("binding", 0.045))
        name = stem + ".jpg"
        h, w = img.shape[:2]
        turned = page.photo.get("sideways", False)
        if turned:  # the camera was held sideways: it says so in the file
            img = cv2.rotate(img, cv2.ROTATE_90_COUNTERCLOCKWISE)
        data = cv2.imencode(".jpg", img, [cv2.IMWRITE_JPEG_QUALITY, 80])[1].tobytes()
        (OUT / name).write_bytes(photo.with_orientation(data, 6 if turned else 1))
        return name, (w, h), forward
    forward = lambda pts: np.asarray(pts, float)
    if page.kind == "scan":
        gray, forward = photo.scan(gray, 700 + page.index)
    png(OUT / (stem + ".png"), gray)
    return stem + ".png", (gray.shape[1], gray.shape[0]), forward


def main():
    pages = saltmarsh.book()
    score.number_bars(pages)
    with tempfile.TemporaryDirectory() as tmp:
        engraved = vrv.engrave([p for p in pages if p.engraver == "verovio"], tmp, HERE)
        for p in pages:
            if p.engraver == "lilypond":
                engraved[p.index] = lily.engrave(p, tmp)
        engraved = {k: (cv2.imread(str(v[0]), cv2.IMREAD_GRAYSCALE), v[1]) for k, v in engraved.items()}
    all_pages, all_bars = [], []
    for p in pages:
        other = engraved.get(p.index - 1 if p.index % 2 else p.index + 1)
        name, size, forward = make(p, engraved, other[0] if other else None)
        entry, bars = truth.page_truth(p, engraved[p.index][1], forward, name, size)
        one = dict(format="barmap/1", book=PART, corpus=dict(kind=p.kind, engraver=p.engraver), pages=[entry],
                   numbers=truth.numbers([p], bars), bars=bars)
        write(OUT / ("page-%02d.json" % p.index), one)
        all_pages.append(entry)
        all_bars += bars
        print("page %d: %s, %s, %d systems, %d bars" % (p.index, p.engraver, p.kind, len(entry["systems"]), len(bars)))
    write(OUT / "saltmarsh.barmap.json", dict(format="barmap/1", book=PART, pages=all_pages,
                                               numbers=truth.numbers(pages, all_bars), bars=all_bars))


def write(path, doc):
    """one bar or system a line: small differences stay small"""
    lines = ['{"format": "barmap/1",']
    for k, v in doc.items():
        if k in ("bars", "numbers", "pages"):
            body = ",\n".join(json.dumps(x, ensure_ascii=False, separators=(",", ":")) for x in v)
            lines.append('"%s": [\n%s\n],' % (k, body))
        elif k != "format":
            lines.append('"%s": %s,' % (k, json.dumps(v, ensure_ascii=False)))
    lines[-1] = lines[-1][:-1] + "}"
    path.write_text("\n".join(lines) + "\n", encoding="utf8")


if __name__ == "__main__":
    sys.exit(main())
