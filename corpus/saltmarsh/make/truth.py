"""From the written book and what the engravers say of their pages to bar maps (barmap/1)."""
import math

from score import silence

NOTE = {2: "\U0001D15E", 4: "\u2669"}


def rounded(p):
    return [round(float(v), 1) for v in p]


def tempo_text(bar, engraver):
    if not bar.mm:
        return bar.tempo
    mm = "%s%s = %d" % (NOTE[bar.mm[0]], "." * bar.mm[1], bar.mm[2])
    return "%s (%s)" % (bar.tempo, mm) if engraver == "lilypond" else "%s  %s" % (bar.tempo, mm)


def words(bar, engraver):
    """-> (key, text, where) of everything written at a bar"""
    out = []
    if bar.tempo or bar.mm:
        out.append((0, tempo_text(bar, engraver), "above"))
    out += [(1 + i, w, "above") for i, w in enumerate(bar.above)]
    out += [(20 + i, w, "below") for i, w in enumerate(bar.below)]
    if bar.to_coda:
        out.append((30, "To Coda", "above"))
    if bar.jump:
        out.append((31, bar.jump, "above"))
    return [("%s:%d" % (bar.id, k), t, w) for k, t, w in out]


def page_truth(page, systems, forward, source, size):
    """-> (page entry, bar entries)"""
    def quad(x0, y0, x1, y1):
        return [rounded(p) for p in forward([(x0, y0), (x1, y0), (x1, y1), (x0, y1)])]

    written = [(block, s) for block in page.blocks for s in block.systems]
    assert len(written) == len(systems), "page %d: %d systems written, %d engraved" % (page.index, len(written), len(systems))
    outs, bars = [], []
    for k, ((block, system), geo) in enumerate(zip(written, systems)):
        top, bottom = geo["ys"][0], geo["ys"][4]
        mid = (top + bottom) / 2
        pts = [(geo["x0"] + (geo["x1"] - geo["x0"]) * i / 24, mid) for i in range(25)]
        cx = (geo["x0"] + geo["x1"]) / 2
        a, b = forward([(cx, top), (cx, bottom)])
        entry = dict(index=k + 1, outline=quad(geo["x0"], top, geo["x1"], bottom), staffSpace=round(math.dist(a, b) / 4, 2), confidence=1.0,
                     midline=[rounded(p) for p in forward(pts)])
        first = system[0]
        if not (block.systems[0] is system and block.first_number == 1):
            entry["printedBarNumber"] = first.number
        outs.append(entry)
        lines = list(geo["bars"])
        opening = len(lines) == len(system) + 1
        assert opening or len(lines) == len(system), "page %d system %d: %d bars, %d barlines" % (page.index, k + 1, len(system), len(lines))
        assert opening == first.start_repeat, "page %d system %d: repeat sign at its start" % (page.index, k + 1)
        left = lines.pop(0)[0] if opening else geo["left"]
        start = "repeat-start" if opening else "none"
        for bar, line in zip(system, lines):
            end = bar.end
            if bar is system[-1] and end == "repeat-start":
                end = "single"
            e = dict(id=bar.id, page=page.index, system=k + 1, outline=quad(left, top, line[0], bottom), number=bar.number, count=bar.count,
                     meter=dict(beats=bar.now[0], unit=bar.now[1], printed=bar.meter is not None), startBarline=start, endBarline=end,
                     content=bar.kind, confidence=1.0, origin="verified")
            if bar.label:
                e["label"] = bar.label
            if bar.reh:
                e["rehearsal"] = dict(text=bar.reh[0], enclosure=bar.reh[1])
            s, t = silence(bar)
            if s:
                e["silentStart"] = float(s)
            if t:
                e["silentEnd"] = float(t)
            if bar.ending:
                e["ending"] = bar.ending
            if bar.signs:
                e["signs"] = bar.signs
            if bar.times:
                e["times"] = bar.times
            ws = []
            for key, text, where in words(bar, page.engraver):
                w = dict(text=text, where=where)
                assert key in geo["words"], "page %d: no box for %r at %s" % (page.index, text, bar.id)
                w["box"] = quad(*geo["words"][key])
                ws.append(w)
            if ws:
                e["words"] = ws
            bars.append(e)
            left, start = line[0], end
    return dict(index=page.index, source=source, width=size[0], height=size[1], systems=outs), bars


def numbers(pages, bars):
    """the musical numbers that have bars among `bars`, and the tacet ones on these pages"""
    have = {b["id"] for b in bars}
    out = {}
    for page in pages:
        for block in page.blocks:
            n = out.setdefault(block.number, dict(label=block.number, title=block.title))
            if block.tacet:
                n["tacet"] = True
            for system in block.systems:
                for bar in system:
                    if bar.id in have:
                        n.setdefault("firstBar", bar.id)
                        n["lastBar"] = bar.id
    return list(out.values())
