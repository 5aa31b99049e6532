"""Pages of the book engraved by Verovio: its SVG blocks set on a page, and the geometry read back from them."""
import json
import re
import subprocess
from pathlib import Path
from xml.etree import ElementTree
from xml.sax.saxutils import escape

import mei

WIDTH, HEIGHT = 2700, 3600  # 9 x 12 in at 300 dpi
SCALE = 1.18  # page pixels for one of Verovio's
LEFT, TOP, BOTTOM, HEAD, GAP = 165, 190, 110, 110, 40
LINE = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)")
SHIFT = re.compile(r"translate\((-?[\d.]+), (-?[\d.]+)\)")
SVG = "{http://www.w3.org/2000/svg}"


def engrave(pages, folder, here):
    """-> {page index: (PNG path, systems)}; systems as in lily.engrave"""
    folder = Path(folder)
    jobs = []
    for page in pages:
        blocks = []
        for i, b in enumerate(page.blocks):
            stem = folder / ("vrv-%02d-%d" % (page.index, i))
            stem.with_suffix(".mei").write_text(mei.mei(b), encoding="utf8")
            blocks.append(dict(input=str(stem) + ".mei", picture=str(stem) + ".svg", boxes=str(stem) + ".boxes.svg"))
        heads = sum(HEAD for b in page.blocks if b.heading) + GAP * (len(page.blocks) - 1)
        options = dict(font=page.face, breaks="encoded", pageWidth=int((WIDTH - LEFT - 150) / SCALE), pageHeight=5000,
                       adjustPageHeight=True, header="none", footer="none", scale=100, pageMarginLeft=55, pageMarginRight=0,
                       pageMarginTop=0, pageMarginBottom=0, mnumInterval=0, minLastJustification=0, **page.options)
        jobs.append(dict(blocks=blocks, options=options, maxHeight=(HEIGHT - TOP - BOTTOM - heads) / SCALE))
    (folder / "jobs.json").write_text(json.dumps(jobs))
    subprocess.run(["node", "verovio.mjs", str(folder / "jobs.json")], cwd=here, check=True, stderr=subprocess.DEVNULL)
    return {p.index: compose(p, j, folder) for p, j in zip(pages, jobs)}


def compose(page, job, folder):
    out = ['<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="%d" height="%d" viewBox="0 0 %d %d">'
           '<rect width="100%%" height="100%%" fill="white"/><g font-family="Times, serif" font-size="50">' % (WIDTH, HEIGHT, WIDTH, HEIGHT)]
    left, right = ("BASS", "– %d –" % page.index) if page.index % 2 else ("– %d –" % page.index, "BASS")
    out.append('<text x="%d" y="130">%s</text><text x="%d" y="130" text-anchor="middle" font-style="italic">Saltmarsh</text>'
               '<text x="%d" y="130" text-anchor="end">%s</text>' % (LEFT + 60, left, WIDTH // 2, WIDTH - 150, right))
    y, systems = TOP, []
    for b, files in zip(page.blocks, job["blocks"]):
        if b.heading:
            if y > TOP:
                y += GAP
            out.append('<rect x="%d" y="%d" width="%d" height="62" fill="none" stroke="black" stroke-width="4"/>'
                       '<text x="%d" y="%d" font-weight="bold">No. %s</text>' % (LEFT + 50, y - 26, 170, LEFT + 66, y + 22, escape(b.number)))
            out.append('<text x="%d" y="%d" font-weight="bold" font-size="62" text-anchor="middle">%s</text>' % (WIDTH // 2, y + 25, escape(b.title)))
            y += HEAD
        svg = Path(files["picture"]).read_text(encoding="utf8")
        w, h = (float(re.search(r'<svg[^>]* %s="([\d.]+)px"' % k, svg)[1]) for k in ("width", "height"))
        inner = svg[svg.index("<svg"):].replace('width="%gpx" height="%gpx"' % (w, h),
                                               'x="%d" y="%d" width="%g" height="%g" viewBox="0 0 %g %g"' % (LEFT, y, w * SCALE, h * SCALE, w, h), 1)
        out.append(inner)
        systems += geometry(files["boxes"], LEFT, y)
        y += h * SCALE
    out.append("</g></svg>")
    stem = folder / ("vrv-%02d" % page.index)
    stem.with_suffix(".svg").write_text("".join(out), encoding="utf8")
    subprocess.run(["rsvg-convert", "-o", str(stem) + ".png", str(stem) + ".svg"], check=True)
    return stem.with_suffix(".png"), systems


def walk(e, x=0.0, y=0.0):
    """every element with the sum of the shifts it stands under"""
    m = SHIFT.match(e.get("transform") or "")
    if m:
        x, y = x + float(m[1]), y + float(m[2])
    yield e, x, y
    for c in e:
        yield from walk(c, x, y)


def lines(g, x, y):
    """the straight strokes that stand directly in a group: x0, y0, x1, y1, width"""
    found = [(p, LINE.match(p.get("d"))) for p in g.findall(SVG + "path")]
    return [(x + float(m[1]), y + float(m[2]), x + float(m[3]), y + float(m[4]), float(p.get("stroke-width") or 0))
            for p, m in found if m]


def boxes(g, x, y, cls):
    out = []
    for e, ex, ey in walk(g, x, y):
        if e.tag == SVG + "g" and cls in (e.get("class") or "").split() and "bounding-box" in e.get("class"):
            for r in e.findall(SVG + "rect"):
                a, b = ex + float(r.get("x")), ey + float(r.get("y"))
                out.append((a, b, a + float(r.get("width")), b + float(r.get("height"))))
    return out


def union(bs):
    return [min(b[0] for b in bs), min(b[1] for b in bs), max(b[2] for b in bs), max(b[3] for b in bs)]


def geometry(path, ox, oy):
    root = ElementTree.parse(path).getroot()
    k = SCALE / 10  # Verovio draws in tenths
    px = lambda x: ox + x * k
    py = lambda y: oy + y * k
    out = []
    for e, x, y in walk(root):
        cls = (e.get("class") or "").split()
        if "bounding-box" in cls:
            continue
        if "system" in cls:
            out.append(dict(staff=[], bars=[], words={}, left=[]))
        elif "staff" in cls and e.tag == SVG + "g":
            out[-1]["staff"] += [l for l in lines(e, x, y) if l[1] == l[3]][:5]
        elif "barLine" in cls:
            strokes = [(a[0] - a[4] / 2, a[0] + a[4] / 2) for a in lines(e, x, y)]
            if strokes:
                out[-1]["bars"].append((min(s[0] for s in strokes), max(s[1] for s in strokes)))
        elif ("clef" in cls or "keySig" in cls) and len({l[0] for l in out[-1]["staff"]}) == 1 and e.tag == SVG + "g":
            bs = boxes(e, x, y, cls[0])
            if bs:
                out[-1]["left"].append(union(bs)[2])
        elif (e.get("id") or "").startswith("w."):
            bs = boxes(e, x, y, "text")
            if bs:
                out[-1]["words"][":".join(e.get("id").split(".")[1:])] = union(bs)
    systems = []
    for s in out:
        ys = sorted({l[1] for l in s["staff"]})
        assert len(ys) == 5, ys
        x0, x1 = min(l[0] for l in s["staff"]), max(l[2] for l in s["staff"])
        bars = sorted(s["bars"])
        first = next((b for b in bars if b[0] > x0 + 100), None)
        left = [v for v in s["left"] if first is None or v < first[1]]
        systems.append(dict(x0=px(x0), x1=px(x1), ys=[py(v) for v in ys], bars=[(px((a + b) / 2), px(a), px(b)) for a, b in bars],
                            left=px(max(left)) if left else px(x0),
                            words={n: [px(b[0]), py(b[1]), px(b[2]), py(b[3])] for n, b in s["words"].items()}))
    systems.sort(key=lambda s: s["ys"][0])
    return systems
