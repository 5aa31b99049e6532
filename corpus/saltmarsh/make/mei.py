"""A block of the book as MEI, for Verovio."""
from fractions import Fraction
from xml.sax.saxutils import escape, quoteattr

ACC = {1: "s", -1: "f", 2: "x", -2: "ff"}
KEYS = [3, 0, 4, 1, 5, 2, 6]  # order of sharps by step
BARS = {"single": "single", "double": "dbl", "final": "end", "repeat-end": "rptend", "repeat-start": "single",
        "repeat-both": "rptend", "dashed": "dashed"}


def key_alter(key):
    a = [0] * 7
    for s in (KEYS[:key] if key > 0 else KEYS[::-1][:-key] if key < 0 else []):
        a[s] = 1 if key > 0 else -1
    return a


def keysig(key):
    return "0" if key == 0 else "%d%s" % (abs(key), "s" if key > 0 else "f")


def event(n, state, key, ident, cue=False):
    a = 'xml:id="%s" dur="%d"' % (ident, n.dur) + (' dots="%d"' % n.dots if n.dots else "")
    if n.step < 0:
        return "<rest %s/>" % a
    a += ' pname="%s" oct="%d"' % ("cdefgab"[n.step], n.octave)
    if "~" in n.marks:
        a += ' tie="i"'
    if cue:
        a += ' cue="true"'
    have = state.get((n.step, n.octave), key_alter(key)[n.step])
    if have != n.alter:
        a += ' accid="%s"' % ACC.get(n.alter, "n")
        state[(n.step, n.octave)] = n.alter
    elif n.alter:
        a += ' accid.ges="%s"' % ACC[n.alter]
    art = " ".join(v for k, v in {">": "acc", "'": "stacc", "-": "ten"}.items() if k in n.marks)
    if art:
        a += ' artic="%s"' % art
    return "<note %s/>" % a


def beamed(notes, bar, prefix, cue=False):
    """events, with eighths and shorter beamed by the beat (or by two quarters)"""
    group = Fraction(3, 8) if bar.now[1] == 8 else Fraction(1, 2) if bar.now[0] % 2 == 0 else Fraction(1, 4)
    state, out, pos, run = {}, [], Fraction(0), []

    def flush():
        if len(run) > 1:
            out.append("<beam>%s</beam>" % "".join(run))
        else:
            out.extend(run)
        run.clear()

    for i, n in enumerate(notes):
        if pos % group == 0:
            flush()
        e = event(n, state, bar.key_now, "%s.n%d" % (prefix, i), cue)
        if n.dur >= 8 and n.step >= 0:
            run.append(e)
        else:
            flush()
            out.append(e)
        pos += n.length
    flush()
    return "".join(out)


def words(bar):
    out = []
    ident = bar.id
    at = 'tstamp="1" staff="1"'
    if bar.tempo or bar.mm:
        mm = ""
        if bar.mm:
            mm = "%s%s = %d" % ({2: "\U0001D15E", 4: "\u2669"}[bar.mm[0]], "." * bar.mm[1], bar.mm[2])
        out.append('<tempo xml:id="w.%s.0" %s place="above">%s</tempo>' % (ident, at, escape("  ".join(filter(None, [bar.tempo, mm])))))
    if bar.reh:
        text, enc = bar.reh
        out.append('<reh xml:id="r.%s" %s place="above"><rend%s fontweight="bold" fontsize="130%%">%s</rend></reh>' % (
            ident, at, ' rend="%s"' % enc if enc != "none" else "", escape(text)))
    for where, ws, base in (("above", bar.above, 1), ("below", bar.below, 20)):
        for i, w in enumerate(ws):
            style = 'fontstyle="normal" fontweight="bold"' if where == "above" else 'fontstyle="italic"'
            out.append('<dir xml:id="w.%s.%d" %s place="%s"><rend %s>%s</rend></dir>' % (ident, base + i, at, where, style, escape(w)))
    for func in ("segno", "coda"):
        if func in bar.signs:
            out.append('<repeatMark xml:id="s.%s.%s" %s place="above" func="%s"/>' % (ident, func, at, func))
    end = 'tstamp="%g" staff="1"' % (bar.now[0] + 0.4)
    if bar.to_coda:
        out.append('<dir xml:id="w.%s.30" %s place="above"><rend fontstyle="normal" fontweight="bold">To Coda</rend></dir>' % (ident, 'tstamp="%g" staff="1"' % (bar.now[0] * 0.75)))
    if bar.jump:
        out.append('<dir xml:id="w.%s.31" %s place="above"><rend fontstyle="normal" fontweight="bold">%s</rend></dir>' % (
            ident, 'tstamp="%g" staff="1"' % (bar.now[0] * 0.75), escape(bar.jump)))
    notes = bar.cue or bar.notes
    for i, n in enumerate(notes):
        if "^" in n.marks:
            out.append('<fermata startid="#%s.n%d" place="above"/>' % (ident, i))
        if n.dyn:
            out.append('<dynam startid="#%s.n%d" place="below">%s</dynam>' % (ident, i, n.dyn))
    if "caesura" in bar.signs:
        out.append('<caesura %s place="above"/>' % end)
    if bar.hair:
        out.append('<hairpin form="%s" tstamp="1" tstamp2="0m+%d" staff="1" place="below"/>' % (
            {"<": "cres", ">": "dim"}[bar.hair], bar.now[0]))
    if bar.cue and bar.cue_name:
        out.append('<dir startid="#%s.n0" place="above"><rend fontstyle="italic" fontsize="80%%">%s</rend></dir>' % (ident, escape(bar.cue_name)))
    return "".join(out)


def layer(bar):
    if bar.cue:
        return '<layer n="1">%s</layer><layer n="2"><mRest xml:id="%s.r" ploc="d" oloc="2"/></layer>' % (
            beamed(bar.cue, bar, bar.id, True), bar.id)
    if bar.kind == "multi-rest":
        body = '<multiRest num="%d"%s/>' % (bar.count, ' block="true"' if not bar.block else ' block="false"')
    elif bar.kind == "rest":
        body = '<mRest xml:id="%s.r"/>' % bar.id
    elif bar.kind == "bar-repeat":
        body = '<mRpt num.visible="false"/>'
    else:
        body = beamed(bar.notes, bar, bar.id)
    return '<layer n="1">%s</layer>' % body


def mei(block):
    first = block.systems[0][0]
    meter = first.meter or block.first_meter
    shown = "" if first.meter else ' meter.visible="false"'
    out = ['<?xml version="1.0" encoding="UTF-8"?><mei xmlns="http://www.music-encoding.org/ns/mei"><music><body><mdiv><score>'
           '<scoreDef keysig="%s" meter.count="%d" meter.unit="%d"%s><staffGrp><staffDef n="1" lines="5" clef.shape="F" clef.line="4"/>'
           "</staffGrp></scoreDef><section>" % (keysig(first.key if first.key is not None else block.first_key), *meter, shown)]
    ending = None
    flat = [(si, bi, bar) for si, s in enumerate(block.systems) for bi, bar in enumerate(s)]
    for k, (si, bi, bar) in enumerate(flat):
        if bar.ending != ending and ending:
            out.append("</ending>")
        if bi == 0 and si:
            out.append("<sb/>")
        if bar.ending != ending and bar.ending:
            out.append('<ending n="%s" lendsym="angledown">' % ",".join("%d." % e for e in bar.ending))
        ending = bar.ending
        if k and (bar.meter or bar.key is not None):
            out.append("<scoreDef%s%s/>" % (' keysig="%s"' % keysig(bar.key) if bar.key is not None else "",
                                            ' meter.count="%d" meter.unit="%d"' % bar.meter if bar.meter else ""))
        label = bar.label or str(bar.number)
        left = ' left="rptstart"' if bar.start_repeat else ""
        out.append('<measure xml:id="%s" n="%s" right="%s"%s>%s%s</measure>' % (
            bar.id, label, BARS[bar.end], left, '<staff n="1">%s</staff>' % layer(bar), words(bar)))
    if ending:
        out.append("</ending>")
    out.append("</section></score></mdiv></body></music></mei>")
    return "".join(out)
