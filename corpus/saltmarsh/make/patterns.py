"""Bass patterns over chords: what the player does where the composer only wrote "two-feel" or "walk"."""
import re

from score import LETTERS, SEMI


def pitch(step, alter, octave):
    return LETTERS[step] + {0: "", 1: "#", -1: "b", 2: "##", -2: "bb"}[alter] + str(octave)


def up(root, letters, semis):
    step, alter, octave = root
    s2 = (step + letters) % 7
    o2 = octave + (step + letters) // 7
    have = 12 * (o2 - octave) + SEMI[s2] - SEMI[step] - alter
    return (s2, semis - have, o2)


def chord(name):
    """-> root, third, fifth, seventh as pitches from the lowest root the instrument has"""
    m = re.match(r"^([A-G])([#b]?)(m7b5|m7|m|maj7|7|dim|6|)$", name)
    step = LETTERS.index(m[1].lower())
    alter = {"": 0, "#": 1, "b": -1}[m[2]]
    octave = 2
    if SEMI[step] + alter < 4:  # below the open E
        octave = 3
    root = (step, alter, octave)
    minor = m[3].startswith("m") and m[3] != "maj7" or m[3] == "dim"
    third = up(root, 2, 3 if minor else 4)
    fifth = up(root, 4, 6 if m[3] in ("dim", "m7b5") else 7)
    seventh = up(root, 6, 11 if m[3] == "maj7" else 9 if m[3] == "dim" else 10)
    if m[3] in ("", "6", "m"):
        seventh = up(root, 5, 9)
    return root, third, fifth, seventh


def low(p):
    """an octave down where the instrument has the note"""
    s, a, o = p
    return (s, a, o - 1) if (o - 1) * 12 + SEMI[s] + a >= 28 else p


def lead(cur, nxt):
    """a half step below or above the next root, whichever is nearer to where we are"""
    r = chord(nxt)[0]
    d = lambda p: 12 * p[2] + SEMI[p[0]] + p[1]
    cands = [c for c in (up((r[0], r[1], r[2] - 1), 6, 11), up(r, 1, 1)) if abs(c[1]) < 2 and d(c) >= 28]
    return min(cands, key=lambda c: abs(d(c) - d(cur)))


def walk(names):
    """four quarters a bar over a list of chords, one a bar; two chords in a bar as 'C F'"""
    bars = names
    out = []
    for i, n in enumerate(bars):
        nxt = bars[(i + 1) % len(bars)].split()[0]
        parts = n.split()
        if len(parts) == 2:
            a, b = chord(parts[0]), chord(parts[1])
            seq = [a[0], low(a[2]), b[0], lead(b[0], nxt)]
        else:
            r, t, f, s = chord(n)
            seq = [[r, t, f], [r, f, t], [r, f, s], [r, low(f), t]][i % 4]
            seq = seq + [lead(seq[-1], nxt)]
        out.append(" ".join(pitch(*p) for p in seq))
    return out


def two(names, style=0):
    """two-feel: root and fifth"""
    out = []
    for i, n in enumerate(names):
        parts = n.split()
        a = chord(parts[0])
        b = chord(parts[1])[0] if len(parts) == 2 else low(a[2])
        ra, rb = pitch(*a[0]), pitch(*b)
        if style == 1 and i % 2:
            out.append("%s/4. %s/8 %s/4 %s" % (ra, ra, rb, rb))
        elif style == 2:
            out.append("%s/4 r %s r" % (ra, rb))
        elif style == 3:
            out.append("%s/4. %s/8 %s/4 %s" % (ra, rb, rb, pitch(*a[1])))
        else:
            out.append("%s/2 %s" % (ra, rb))
    return out


def eighths(names, push=True):
    """driving eighth notes"""
    out = []
    for i, n in enumerate(names):
        parts = n.split()
        a = chord(parts[0])
        r, f = pitch(*a[0]), pitch(*low(a[2]))
        if len(parts) == 2:
            b = pitch(*chord(parts[1])[0])
            out.append("%s/8 %s %s %s %s %s %s %s" % (r, r, r, r, b, b, b, b))
        elif push and i % 2:
            out.append("%s/8> r %s %s r %s %s %s" % (r, r, f, r, f, pitch(*low(a[3]))))
        else:
            out.append("%s/4 %s/8 %s r %s %s %s" % (r, r, r, r, f, r))
    return out


def six(names, style=0):
    """6/8 in two"""
    out = []
    for i, n in enumerate(names):
        parts = n.split()
        a = chord(parts[0])
        b = chord(parts[1])[0] if len(parts) == 2 else low(a[2])
        ra, rb, t = pitch(*a[0]), pitch(*b), pitch(*a[1])
        if style == 1:
            out.append("%s/4 %s/8 %s/4 %s/8" % (ra, ra, rb, t))
        elif style == 2:
            out.append("%s/8 r %s %s r %s" % (ra, t, rb, rb))
        else:
            out.append("%s/4. %s" % (ra, rb))
    return out


def three(names, style=0):
    out = []
    for i, n in enumerate(names):
        a = chord(n)
        r, f, t = pitch(*a[0]), pitch(*low(a[2])), pitch(*a[1])
        out.append([r + "/2.", "%s/4 %s %s" % (r, t, f), "%s/2 %s/4" % (r, f), "%s/4 r r" % r][(i + style) % 4 if style < 4 else 3])
    return out
