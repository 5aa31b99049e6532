"""Text crops drawn from typefaces: counts, marks in frames, bar numbers, meters, endings and words, as strips.crop would cut them."""
import functools
import os

import cv2
import numpy as np
from PIL import Image, ImageDraw, ImageFont

from charset import CHARS

WORDS = """Allegro Andante Moderato Adagio Largo Lento Presto Vivace Allegretto Andantino Maestoso Grave Tempo Primo I II III IV Solo Tutti Soli arco
pizz. con sord. senza sord. mute open div. unis. cresc. dim. decresc. rit. rall. accel. poco a poco molto sempre espr. legato dolce marcato
stacc. leggiero cantabile sotto voce colla parte colla voce ad lib. a tempo meno mosso piu mosso Fine D.C. D.S. al Coda al Fine To Coda Segue
attacca Tacet V.S. Vamp Safety vamp till cue last time only 1st time only 2nd time only play both times on cue dialogue repeat and fade Swing
Straight Bright Slow Fast Medium Ballad Waltz March Tango Samba Bossa Rock Funk Shuffle Two In in 4 in 2 in one Freely Rubato Playoff Bows Exit Music
Overture Entr'acte Underscore Reprise Finale No. Act Scene Flute Oboe Clarinet Bassoon Horn Trumpet Trombone Tuba Violin Viola Cello Bass
Double Electric Synth Piano Guitar Drums Keys cue cued Vln. Fl. Ob. Cl. Bsn. Hn. Tpt. Tbn. Timp. Harp Bells Xylo. Animez peu Assez vif Rall. Mouvt
Langsam Etwas bewegter Schnell Ziemlich ruhig Bewegt Hauptzeitmass Nicht eilen Sehr fein breit zart mit Dampfer offen gestopft hervortretend
Klav. Hbl. tr sim. simile subito espressivo tranquillo agitato energico giusto assai ma non troppo con moto con brio con fuoco quasi Tempo di
Menuetto Scherzo Trio Coda Variation Theme Largamente largamente animato stringendo ritenuto allargando morendo perdendosi smorzando tenuto
Bogen Saite loco 8va gliss. slap fingered with pick bow tip frog half whole off on stop hold wait watch conductor first second third
click applause fade segue as one G.P. Cadenza Recit. Chorus Verse Bridge Intro Tag Ending Dance Break""".split()


NAVIGATION = """D.S.|D.S. al Coda|D.S. al Fine|D. S.|D.S. al Coda (no rep.)|D.S. (take rep.)|Dal Segno|Dal Segno al Fine|Dal Segno al Coda|dal segno|D.C.|D. C.|D.C. al Fine|D.C. al Coda|D.C. senza rep.
Da Capo|Da Capo al Fine|Da Capo al Coda|da capo al fine|To Coda|to Coda|TO CODA|al Coda|last x to Coda|2nd x to Coda|To Coda 2|Fine|FINE|Fine.|(Fine)|fine|al Fine|Coda|CODA|Segno""".replace("\n", "|").split("|")
NAMES = """Low Late Salt Grey Quiet Old Second Broken Brass Paper Winter Harbour Lantern Open Long Copper Slow Midnight Borrowed Half River Tin Empty Northern Sunday
Tide Water Road Ferry Lamp Garden Waltz March Parade Letter Supper Bells Window Weather Morning Company Chorus Goodbye Reprise Dance Overture Ballet Chase Quarrel Promise Scene Entrance Bows""".split()


def heading(r):
    """the heading of a musical number"""
    n = str(int(r.integers(1, 32))) + (str(r.choice(list("ABCabc"))) if r.random() < 0.2 else "")
    t = " ".join(r.choice(NAMES, r.integers(1, 4)))
    t = t.upper() if r.random() < 0.25 else t
    form = str(r.choice(["No. %s  %s", "No. %s %s", "No. %s %s", "No. %s: %s", "No. %s - %s", "NO. %s %s", "%s. %s", "%s %s", "#%s %s", "#%s - %s", "No. %s", "#%s", "Nr. %s %s", "%s: %s", "No. %s. %s", "No. %s %s (Reprise)", "Act I No. %s", "%s - %s"]))
    return form % ((n, t) if form.count("%s") == 2 else n)


def faces(folder):
    return sorted(os.path.join(d, f) for d, _, fs in os.walk(folder) for f in fs if f.lower().endswith((".ttf", ".otf")))


def number(r):
    c = r.random()
    return int(r.integers(1, 10) if c < 0.35 else r.integers(10, 33) if c < 0.7 else r.integers(33, 100) if c < 0.88 else r.integers(100, 1000))


def phrase(r):
    c = r.random()
    if c < 0.12:
        return "%s = %s%d" % (r.choice(["♩", "♪", "♩.", "Tempo"]), r.choice(["", "", "", "ca. "]), r.integers(40, 220))
    if c < 0.2:
        return "".join(r.choice(list("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ.,-'&() "), r.integers(2, 14))).strip() or "x"
    if c < 0.27:
        return str(r.choice(NAVIGATION)) if r.random() < 0.8 else str(r.choice(["Tacet", "V.S.", "Segue", "TACET", "G.P.", "Vamp", "VAMP", "Safety"]))
    if c < 0.34:
        return "%s %d" % (r.choice(["No.", "vamp", "Play", "Tacet to", "rep.", "(play", "bar", "Time"]), number(r)) + str(r.choice(["", "", "x", " times", "X", ")"]))
    s = " ".join(r.choice(WORDS, r.integers(1, 4)))
    c = r.random()
    return s.upper() if c < 0.12 else s.capitalize() if c < 0.3 else "(" + s + ")" if c < 0.36 else s


def sample(r):
    """-> (kind, text)"""
    c = r.random()
    if c < 0.34:
        return "count", str(number(r))
    if c < 0.5:
        if r.random() < 0.05:  # the letter hardest to tell from a figure
            return "rehearsal", "I" if r.random() < 0.6 else "1"
        t = str(r.choice(list("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))) if r.random() < 0.55 else str(number(r))
        if r.random() < 0.15:
            t = t[0] + str(r.choice(list(t[0].lower() + t[0] + "123")))
        return "rehearsal", t
    if c < 0.62:
        return "bar-number", str(r.choice(["", "", "", "("])) + str(int(r.integers(1, 600)))
    if c < 0.64:
        return "meter", str(r.choice(["C", "C|", "C|"]))
    if c < 0.71:
        return "meter", "%d/%d" % (r.choice([2, 3, 4, 5, 6, 7, 9, 12, 4, 3, 2, 6]), r.choice([2, 4, 8, 4, 8, 4, 1, 16] if r.random() < 0.2 else [2, 4, 8, 4]))
    if c < 0.74:
        return "ending", str(r.choice(["1.", "2.", "3.", "1.,2.", "1.2.", "1.-3.", "1, 2", "4.", "1", "2", "3", "1., 2.", "1. 2.", "1,2", "1.2.3.", "1-3", "1 - 3", "1., 2., 3.", "5.", "6."]))
    if c < 0.81:
        return "heading", heading(r)
    return "word", phrase(r)


@functools.lru_cache(None)
def letters_of(face):
    """what the face can draw of printable text"""
    f = ImageFont.truetype(face, 24)
    none = bytes(f.getmask("\uffff"))
    return {c for c in CHARS if c == " " or (len(bytes(f.getmask(c))) and bytes(f.getmask(c)) != none)}


def ink(text, face, px, r):
    """tight gray image of text, None when the face lacks a letter"""
    if not letters_of(face).issuperset(text):
        return None
    f = ImageFont.truetype(face, px)
    l, t, rr, b = f.getbbox(text)
    if rr - l < 2 or b - t < 2 or rr - l > 4000:
        return None
    img = Image.new("L", (rr - l + 2, b - t + 2), 255)
    ImageDraw.Draw(img).text((1 - l, 1 - t), text, font=f, fill=0)
    a = np.asarray(img)
    y, x = np.where(a < 160)
    return a[y.min():y.max() + 1, x.min():x.max() + 1] if len(y) else None


def common_time(text, face, px, sp, r):
    """C two spaces high, for cut time with an upright stroke through it"""
    c = ink("C", face, px, r)
    if c is None:
        return None
    h = int(r.uniform(1.8, 2.2) * sp)
    c = cv2.resize(c, (max(8, int(c.shape[1] * h / c.shape[0] * r.uniform(0.8, 1.1))), h), interpolation=cv2.INTER_AREA)
    if text == "C|":
        p = int(r.uniform(0.2, 0.8) * sp)
        c = np.pad(c, ((p, p), (0, 0)), constant_values=255)
        x, t = int(c.shape[1] * r.uniform(0.42, 0.68)), max(1, int(r.uniform(0.08, 0.3) * sp))
        cv2.line(c, (x, 0), (x, c.shape[0]), 0, t)
    return c


def draw(r, serif, music):
    """-> (48 px high crop with 8 px around the view, kind, text) or None"""
    kind, text = sample(r)
    face = str(r.choice(music if kind in ("meter", "count") and r.random() < 0.4 and len(music) else serif))
    size = {"count": (1.2, 2.4), "rehearsal": (1.0, 2.2), "bar-number": (0.7, 1.4), "meter": (1.7, 2.1), "ending": (0.8, 1.5), "heading": (1.4, 3.2), "word": (0.8, 2.0)}[kind]
    sp = 24.0  # px a space while drawing
    px = int(r.uniform(*size) * sp * 1.35)
    try:
        if kind == "meter" and text[0] == "C":
            g = common_time(text, face, px, sp, r)
        elif kind == "meter":
            a, b = (ink(t, face, px, r) for t in text.split("/"))
            if a is None or b is None:
                return None
            k = 1.9 * sp
            a, b = (cv2.resize(i, (max(2, int(i.shape[1] * k / i.shape[0])), int(k)), interpolation=cv2.INTER_AREA) for i in (a, b))
            w = max(a.shape[1], b.shape[1])
            g = np.full((int(4 * sp), w), 255, np.uint8)
            g[:a.shape[0], (w - a.shape[1]) // 2:][:, :a.shape[1]] = a
            g[-b.shape[0]:, (w - b.shape[1]) // 2:][:, :b.shape[1]] = b
        else:
            g = ink(text, face, px, r)
    except OSError:
        return None
    if g is None:
        return None
    if kind == "ending":  # as cut from a bracket: room beside the numbers, more of it on the right, sometimes the end of the hook or another line
        e = [int(r.uniform(0, v) * sp) for v in (0.5, 0.7, 0.8)]
        wide = int(4.5 * sp * (1 if r.random() < 0.7 else r.uniform(0.3, 1)))
        g = np.pad(g, ((e[0], e[1]), (e[2], max(0, wide - g.shape[1] - e[2]))), constant_values=255)
        if r.random() < 0.3:
            y, t = (0 if r.random() < 0.6 else g.shape[0] - 1), max(1, int(r.uniform(0.06, 0.2) * sp))
            cv2.line(g, (0, y), (g.shape[1], y), 0, t)
        if r.random() < 0.3:
            x = int(r.uniform(0, 0.2) * sp) if r.random() < 0.6 else g.shape[1] - 1
            cv2.line(g, (x, 0), (x, int(g.shape[0] * r.uniform(0.4, 1))), 0, max(1, int(r.uniform(0.06, 0.2) * sp)))
    frame = 0
    if kind == "rehearsal" and r.random() < 0.75 or kind == "bar-number" and r.random() < 0.1:
        frame = int(r.uniform(0.25, 0.8) * sp)
        g = np.pad(g, frame, constant_values=255)
        t = max(1, int(r.uniform(0.08, 0.25) * sp))
        if r.random() < 0.8 or len(text) > 2:
            if r.random() < 0.25:
                g = np.pad(g, ((0, 0), (int(0.4 * sp),) * 2), constant_values=255)
            cv2.rectangle(g, (t // 2, t // 2), (g.shape[1] - 1 - t // 2, g.shape[0] - 1 - t // 2), 0, t)
        else:
            s = int(max(g.shape) * 1.1)
            e = np.full((s, s), 255, np.uint8)
            e[(s - g.shape[0]) // 2:][:g.shape[0], (s - g.shape[1]) // 2:][:, :g.shape[1]] = g
            g = e
            cv2.circle(g, (s // 2, s // 2), s // 2 - t, 0, t, cv2.LINE_AA)
    m = int(0.25 * sp)
    h = g.shape[0] + 2 * m
    around = int(8 * h / 32) + 1
    g = np.pad(g, m + around, constant_values=255)
    H, W = g.shape
    if kind == "meter" or r.random() < 0.12:  # staff lines behind or beside
        first = r.uniform(-2, 2) * sp if kind != "meter" else H / 2 - 2 * sp
        for k in range(5):
            y = int(first + k * sp) if kind == "meter" else int(first + k * sp + (H if r.random() < 0.5 else 0))
            cv2.line(g, (0, y), (W, y), 0, max(1, int(r.uniform(0.06, 0.16) * sp)))
    for _ in range(int(r.integers(0, 3)) if r.random() < 0.35 else 0):  # ink of neighbours in the margin
        side, p = r.integers(0, 4), m + around - 4
        x = int(r.uniform(0, W)) if side < 2 else int(r.choice([r.uniform(0, p), W - r.uniform(0, p)]))
        y = int(r.uniform(0, H)) if side >= 2 else int(r.choice([r.uniform(0, p), H - r.uniform(0, p)]))
        if r.random() < 0.5:
            cv2.line(g, (x, y), (int(x + (r.normal(0, 30) if side < 2 else 0)), int(y + (r.normal(0, 30) if side >= 2 else 0))), 0, int(r.integers(1, 5)))
        else:
            cv2.circle(g, (x, y), int(r.integers(1, max(2, p // 2))), 0, -1)
    ky = 32 / h
    inner = W - 2 * around
    view = min(320, max(4, round(inner * ky)))
    out = cv2.resize(g, (view + 16, 48), interpolation=cv2.INTER_AREA)
    return out, kind, text


def many(args):
    seed, n, serif, music = args
    r = np.random.default_rng(seed)
    out = []
    while len(out) < n:
        d = draw(r, serif, music)
        if d is not None:
            out.append(d)
    return out
