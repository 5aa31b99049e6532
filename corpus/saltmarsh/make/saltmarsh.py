"""The bass book of "Saltmarsh", a show that exists nowhere else: nine pages, seven numbers. Music, words and titles are
ours, written for this project. Pages 2-3, 4-5, 6-7 and 8-9 are the openings; page 1 is a right-hand page."""
from fractions import Fraction as F

from patterns import eighths, six, three, two, walk
from score import B, C, P, R, Block, Page, bars


def K(**kw):
    return kw


def page1():
    s = []
    s.append([
        B("!ff f2/2> bb2>", meter=(4, 4), key=-2, tempo="Maestoso", mm=(4, 0, 84), above=["arco"]),
        B("eb3/2> g2/4> a2>"),
        B("bb2/1"),
        B("bb2/2^ r", signs=["fermata"], above=["watch"], end="double"),
    ])
    s.append([
        R(6, block=True, tempo="Più mosso", mm=(4, 0, 112)),
        B("!mp g2/4. g2/8 d3/4 c3", above=["pizz."]),
        B("f2/4. f2/8 c3/4 bb2"),
        B("eb3/4. bb2/8 g2/4 eb3"),
    ])
    s.append(bars(two(["Bb", "F7", "Gm", "Dm", "Eb"], 1), first=K(reh="A")))
    s.append([B(t) for t in two(["Cm7", "F7", "Bb"], 1)] + [B("f2/4 a2 c3 eb3"), R(3, block=True)])
    s.append(bars(walk(["Bb", "Gm7", "Cm7", "F7", "Dm7"]), first=K(reh="B", above=["in four"], hair="<")))
    s.append(bars(walk(["G7", "Cm7", "F7", "Bb7"])) + [B("eb3/4 e2 f2 r"), B("!f f2/4 r", meter=(2, 4))])
    s.append([B("bb2/4> r d3> r", meter=(4, 4), reh="C"), P(), B("eb3/4> r c3> r"), P(), B("f2/8 f f f g a bb c3")])
    s.append(bars(eighths(["Bb", "Eb", "Cm", "F7"]), first=K(start_repeat=True), last=K(ending=None)))
    s.append([
        B("bb2/4 d3 f3 d3", ending=[1]),
        B("c3/4 eb3 f2/8 g a c3", ending=[1], end="repeat-end"),
        B("bb2/4 ab2 g2 gb2", ending=[2]),
        B("!p f2/1~", ending=[2]),
        B("f2/1", end="double", below=["dim."]),
    ])
    s.append([
        B("!pp a2/1", reh="D", key=3, tempo="Misterioso", mm=(4, 0, 66), above=["arco"]),
        B("a2/2 e2"), B("f#2/1"), B("e2/2. r/4"),
        C("e4/4 f#4 a4/8 g#4 f#4/4", "Ob."), C("e4/2. c#4/4", ""),
    ])
    s.append([
        B("a2/2 c#3/4 d3"), B("e3/2 e2"), B("a2/2 a2", hair=">"), B("a2/2 r"),
        R(12, above=["(Dialogue)"]),
    ])
    return Page(1, "lilypond", "clean", [Block("1", "Flood Tide (Overture)", s)])


def page2():
    s = []
    s.append([
        R(16, reh="E", tempo="Poco a poco animato"),
        C("a3/8 b c#4 d4 e4/4 e4", "Vc."),
        B("!mf a2/4 e2 a2 b2", above=["pizz."]), B("c#3/4 a2 f#2 e2"),
    ])
    s.append(bars(walk(["D", "E7", "C#m7", "F#m7", "Bm7"])))
    s.append(bars(walk(["E7", "A", "D"])) + [B("e2/8 f# g# a b c#3 d3 e3"), B("a3/4> r/2.", end="double")])
    s.append(bars(eighths(["A", "D", "F#m", "E7", "A"]), first=K(reh="F", tempo="Allegro", mm=(4, 0, 138))))
    s.append(bars(eighths(["F#m", "D", "Bm7", "E7"])) + [
        B("a2/4> a2> a2> r", above=["G.P. follows"]), R(above=["G.P."], signs=["fermata"])])
    s.append([B("!ff e2/1>", tempo="Largo", above=["arco"]), B("a2/1^", signs=["fermata"], end="final",
                                                                               above=["applause segue"])])
    t = []
    t.append([
        B("!mf r/4 e2", pickup=F(1, 2), meter=(4, 4), key=1, tempo="Tango, not hurried", mm=(4, 0, 116), above=["pizz."]),
        B("e2/4. b2/8 g2/4 b2", reh="A"), B("e2/4. b2/8 g2/4 f#2"),
        B("a2/4. e3/8 c3/4 e3"), B("b2/4. f#2/8 a2/4 b2"),
    ])
    t.append([B("e2/4. b2/8 g2/4 b2"), P(), B("c3/4. g2/8 e2/4 g2"), B("b2/4. f#2/8 d#3/4 b2"),
              B("e2/4 g2 b2 r")])
    t.append([
        B("a2/4. e2/8 a2/4 c3", start_repeat=True, above=["VAMP", "(out on cue, end of pass)"]),
        B("b2/4. f#2/8 b2/4 d#3", end="repeat-end"),
        R(8, reh="B", above=["(Vocal)"]),
        B("e2/4. e2/8 g2/4 b2"), B("a2/4. a2/8 g2/4 f#2"),
    ])
    t.append([B(x) for x in two(["Am", "D7", "G", "C"], 3)] + [B("f#2/4 c3 b2 a2")])
    t.append([B("e2/4. e2/8 b2/4 e3"), B("d3/4. d3/8 b2/4 g2", above=["poco rit."]),
              B("c3/2 b2^", signs=["fermata", "caesura"]), B("!p e2/4 r b2 r", tempo="a tempo"), B("e2/4 r/2.")])
    return Page(2, "lilypond", "photo", [
        Block("1", "Flood Tide (Overture)", s, heading=False),
        Block("2", "Salt and Silver", t)])


def page3():
    t = []
    t.append(bars(two(["Em", "Am", "B7", "Em", "C"], 2), first=K(reh="C", above=["light"])))
    t.append([B(x) for x in two(["Am", "F#m7b5", "B7"], 2)] + [R(4, block=True), B("b2/8 c3 d3 d#3 e3/4 r")])
    t.append([
        B("!f e3/4 d3 b2 g2", reh="D", start_repeat=True), B("a2/4 c3 e3 c3"), B("b2/4 a2 f#2 b2"),
        B("e2/4 g2 b2 e3", end="repeat-end", above=["3X"], times=3),
        B("c3/4> r b2> r"), B("e2/4> r/2.", end="double"),
    ])
    t.append([B("g2/2. d3/4", key=2, meter=(2, 2), tempo="Broadly, in two", mm=(2, 0, 52), above=["arco"], reh="E"),
              B("a2/2. e3/4"), B("f#2/2. c#3/4"), B("b2/2 a2/4 g2"), B("e2/2 e2", hair="<")])
    t.append([B("a2/2 a2/8 b2 c#3 d3"), B("!f d3/2. a2/4"), B("g2/2 f#2"), B("e2/2 a2"),
              B("d3/2 r", end="double")])
    t.append([R(5, above=["To Electric Bass"]), R(7, reh="F"),
              B("!mf d3/8 d d r a2 r c3 c#3", above=["Electric Bass"]), B("d3/8 d d r f3 r e3 c3")])
    t.append(bars(eighths(["Dm", "Dm", "Gm", "Dm", "A7"]), first=K(reh="G", key=-1, meter=(4, 4), tempo="Rock, straight 8ths", mm=(4, 0, 132))))
    t.append(bars(eighths(["Bb", "C7", "F", "A7", "Dm"])))
    t.append(bars(eighths(["Gm", "C7", "F Bb", "Gm A7", "Dm"]), first=K(reh="H")))
    t.append(bars(eighths(["Gm", "Dm", "Bb", "A7", "Dm C7"])))
    t.append(bars(eighths(["Bb", "F", "Gm", "C7"]), first=K(hair="<")) + [B("f2/8> a2 c3 f3 e3 d3 c3 bb2", above=["V.S."])])
    return Page(3, "lilypond", "photo", [Block("2", "Salt and Silver", t, heading=False)], photo=dict(sideways=True))


def page4():
    t = []
    t.append(bars(eighths(["A7", "Dm", "Bb C7", "F A7", "Dm"]), first=K(reh="I", )))
    t.append(bars(eighths(["Gm", "Dm", "A7", "Dm Gm"])) + [B("a2/8 a a a bb2 bb b2 b")])
    t.append([B("c3/4> r c3> r"), B("c3/8 d e f g3 f e c"), B("f2/4> r/2.", above=["safety"], start_repeat=True),
              B("r/2 f2/8 g a c3", end="repeat-end"), B("f3/2> f2>"), B("f2/1^", signs=["fermata"], end="final",
                                                                       above=["Segue as one"])])
    u = []
    u.append([R(8, block=True, meter=(3, 4), key=-3, tempo="Waltz, rubato", mm=(4, 0, 96), above=["To Double Bass"]),
              R(3, reh=("9", "box")), B("!p eb3/2.", above=["Double Bass, arco"]), B("bb2/2."), B("c3/2.")])
    u.append(bars(three(["Ab", "Eb", "Fm", "Bb7", "Eb", "Cm"], 0)))
    u.append(bars(three(["Fm", "Bb7", "Gm", "Cm", "Ab", "Bb7"], 1), first=K(reh=("21", "box"), above=["pizz."])))
    u.append([B("eb3/4 r r", signs=["segno"], reh=("27", "box"))] + bars(three(["Bb7", "Cm", "Gm"], 4))
             + [B("ab2/4 c3 eb3", to_coda=True, signs=["to-coda"]), R(3, block=True)])
    u.append(bars(three(["Ab", "Fm", "Eb", "C7", "Fm", "Bb7"], 2), first=K(reh=("35", "box"))))
    u.append([B("eb3/4 g2 bb2"), B("eb3/4 r r", above=["rit."]), R(4, tempo="a tempo"), B("bb2/4 ab2 g2"),
              B("f2/2.^", signs=["dal-segno", "fermata"], jump="D.S. al Coda", end="double")])
    u.append([B("ab2/4 r r", signs=["coda"], reh=("49", "box")), B("bb2/4 r r"), B("!pp eb3/2.~", above=["arco"], hair=">"),
              B("eb3/2.^", signs=["fermata"], end="final", above=["attacca"])])
    return Page(4, "lilypond", "scan", [
        Block("2", "Salt and Silver", t, heading=False),
        Block("3", "The Wading Song", [], tacet=True),
        Block("4", "A Boat for the Widow", u)])


def page5():
    s = []
    s.append([R(4, meter=(4, 4), key=-1, tempo="Medium swing", mm=(4, 0, 144), above=["Double Bass, pizz."]),
              B("!mf d3/4 c3 a2 f2"), B("g2/4 a2 bb2 b2"), B("c3/4 r g2 r"), B("f2/4 r r/2", end="double")])
    s.append(bars(two(["F", "Dm7", "Gm7", "C7"]), first=K(reh=("9", "box"), above=["in two"])) + [R(2, block=True)])
    s.append(bars(two(["F", "F7", "Bb", "Bm7b5"], 1)) + [B("c3/2 g2/2")])
    s.append(bars(walk(["F", "D7", "Gm7", "C7", "Am7"]), first=K(reh=("20", "box"), above=["in four"])))
    s.append(bars(walk(["D7", "Gm7", "C7", "F", "Cm7 F7"])))
    s.append(bars(walk(["Bb", "Bdim", "F", "D7", "G7"]), first=K(reh=("30", "box"))))
    s.append(bars(walk(["G7", "C7"])) + [B("f2/4 a2 c3 d3"), B("eb3/4 d3 db3 c3"), R(2, above=["Solo (Tpt.)"])])
    s.append([R(8, reh=("41", "box")), C("c4/8 d4 f4 d4 c4/4 a3", "Tpt."), B("!f f2/4> f2> r f2>"), P()])
    s.append(bars(walk(["Bb7", "Bb7", "F", "D7", "Gm7"]), first=K(reh=("52", "box"), start_repeat=True)))
    s.append([B("c3/4 bb2 a2 g2", ending=[1]), B("f2/4 d3 g2 c3", ending=[1], end="repeat-end"),
              B("c3/4 c3 e3 g3", ending=[2]), B("f3/4> r f2> r", ending=[2], end="double"), B("bb2/2 a2"), B("g2/2 c3")])
    s.append([B("f2/4 g2 a2 bb2", reh=("63", "box")), B("c3/4 d3 e3 c3"), R(2, block=True), R(14, below=["Time"])])
    return Page(5, "verovio", "photo", [Block("5", "Mrs. Fenn Counts the Eels", s)], face="Leland")


def page6():
    s = []
    s.append([R(6, reh=("81", "box")), B("!mp f2/4 a2 c3 a2"), B("g2/4 bb2 d3 bb2"), B("a2/4 c3 e3 c3"), B("bb2/4 a2 g2 c3")])
    s.append(bars(walk(["F", "Dm7", "Gm7", "C7", "F7"]), first=K(reh=("91", "box"), hair="<")))
    s.append(bars(walk(["Bb", "Bdim", "F", "D7"])) + [B("g2/4 a2", meter=(2, 4)), B("!f c3/4> r c3> r", meter=(4, 4))])
    s.append([B("f2/4 f2 f2/8 g a c3"), B("f3/4> r/2 c3/4"), B("f2/4 r/2.", end="final", above=["Segue"])])
    t = []
    t.append([B("!f d3/4. a2", meter=(6, 8), key=1, tempo="Jig, in two", mm=(4, 1, 120)), B("g2/4. d3"),
              B("c3/4. g2"), B("a2/4. d3"), R(4)])
    t.append(bars(six(["G", "D7", "Em", "C", "G D7", "G"], 1), first=K(reh="A", start_repeat=True), last=K(end="repeat-end")))
    t.append(bars(six(["C", "G", "Am", "Em", "C", "D7"], 1), first=K(reh="B")))
    t.append(bars(six(["G", "Em", "Am D7", "G"], 2), last=K(end="double")) + [R(2, block=True, above=["(Fiddle alone)"])])
    t.append(bars(six(["Em", "B7", "Em", "Am", "Em", "B7"], 0), first=K(reh="C", key=1, above=["poco meno"])))
    t.append(bars(six(["G", "D7", "G", "C", "G D7"], 1), first=K(reh="D", start_repeat=True, above=["Tempo I"])) + [
        B("g2/4 g2/8 a2/4 b2/8", end="repeat-end", above=["play three times"], times=3)])
    t.append([R(10, reh="E"), C("d4/8 e4 d4 b3 c4 d4", "Fid."), B("c3/4. d3"), B("g2/4. r")])
    return Page(6, "verovio", "clean", [
        Block("5", "Mrs. Fenn Counts the Eels", s, heading=False),
        Block("6", "Jig of the Eel Men", t)], face="Leland")


def page7():
    t = []
    t.append(bars(six(["G", "C", "G D7", "G", "Em", "Am"], 1), first=K(reh="F")))
    t.append(bars(six(["D7", "G", "C", "G", "D7", "G"], 2)))
    t.append([R(3, block=True, reh="G"), B("d3/4. c3"), B("b2/4. a2"), B("g2/8 r r d3 r r"), B("g2/4. r", end="double")])
    t.append(bars(six(["Em", "C", "D7", "G", "Am", "B7"], 0), first=K(reh="H", above=["arco"], tempo="Pesante", mm=(4, 1, 88))))
    t.append(bars(six(["Em", "Am", "Em", "B7"], 0)) + [B("e3/4. d3"), B("c#3/4. c3", above=["accel."])])
    t.append(bars(six(["G", "C", "G", "D7", "Em", "C"], 1), first=K(reh="I", tempo="Presto", mm=(4, 1, 144), above=["pizz."])))
    t.append(bars(six(["G D7", "G", "C", "G", "D7", "G"], 1)))
    t.append(bars(six(["C", "G", "Am", "D7"], 2)) + [B("g2/8 a b c3 d e"), B("d3/4> r/8 d3/4> r/8")])
    t.append([B("g2/4. d3", above=["last time only"]), B("g2/4. r/4.", ), B("!ff g2/4> r/8 d3/4> r/8"), B("g2/4> r/8 r/4.", end="final")])
    v = []
    v.append([B("!p e2/1", meter=(2, 2), key=0, tempo="Slow and still", mm=(2, 0, 54), above=["arco"], reh=("1", "box")),
              B("f2/1"), B("g2/2 a2"), B("e2/1"), B("d3/2 c3")])
    v.append([B("b2/1"), B("a2/2 g#2"), R(2, block=True), B("a2/2 a2", hair="<"), B("f2/2 d3")])
    v.append([B("e2/2 e3"), B("a2/1"), B("g2/2 f2", above=["V.S."])])
    return Page(7, "verovio", "photo", [
        Block("6", "Jig of the Eel Men", t, heading=False),
        Block("7", "Spring Tide", v)], face="Bravura", photo=dict(binding=0.08))


def page8():
    v = []
    v.append([B("!mf c3/2 g2", reh=("15", "box")), B("f2/2 c3"), B("g2/2 d3"), B("c3/2 e3"), B("a2/2 e2")])
    v.append([B("d3/2 g2", signs=["segno"], reh=("20", "box")), B("c3/2. b2/4"), B("a2/2 d3"), B("g2/2 f2"),
              B("e2/2 a2", label="23A", above=["23A"]), B("d3/2 g2", label="23B", above=["23B"])])
    v.append([B("c3/4 c3 g2 g2", reh=("24", "box"), start_repeat=True), B("f2/4 f2 c3 c3"), B("d3/4 d3 a2 a2"),
              B("g2/4 g2 f2 d3", end="repeat-end"), B("c3/2 e3", signs=["to-coda"], to_coda=True)])
    v.append([R(5, block=True, reh=("29", "box")), R(11), B("f2/2 g2"), B("a2/2 b2")])
    v.append([B("c3/4 r g2 r", reh=("47", "box")), P(), B("f2/4 r c3 r"), P(), B("g2/4 a2 b2 d3")])
    v.append([B("c3/2 b2"), B("a2/2 g2"), B("f2/1"), B("g2/1^", signs=["fermata", "dal-segno"], jump="D.S. al Coda", end="double")])
    v.append([B("ab2/2 eb3", signs=["coda"], reh=("56", "box"), key=-3, tempo="Broad"), B("f2/2 bb2"), B("eb3/2 c3"),
              B("ab2/2 f2"), B("bb2/1")])
    v.append([B("eb3/4 r", meter=(2, 4)), B("!ff eb3/2> bb2>", meter=(2, 2)), B("c3/2> ab2>"),
              B("bb2/2^ r", signs=["fermata", "caesura"]), B("eb3/1^", signs=["fermata"], end="final", above=["attacca"])])
    return Page(8, "verovio", "scan", [Block("7", "Spring Tide", v, heading=False)], face="Petaluma")


def page9():
    w = []
    w.append([R(2, meter=(12, 8), key=-3, tempo="Slow blues, in four", mm=(4, 1, 60), above=["Electric Bass"]),
              B("!mf eb3/4 eb3/8 g2/4 g2/8 ab2/4 ab2/8 bb2/4 bb2/8"), B("eb3/4. bb2/4. g2/4. eb3/4.")])
    w.append([B("ab2/4 ab2/8 c3/4 c3/8 eb3/4 eb3/8 c3/4 a2/8", reh="A"), B("bb2/4. bb2/4 ab2/8 g2/4. f2/4."),
              B("eb3/4 eb3/8 g2/4 g2/8 bb2/4 bb2/8 c3/4 d3/8"), B("eb3/4. db3/4. c3/4. bb2/4.")])
    w.append([B("ab2/4. eb3/4. a2/4. eb3/4."), B("bb2/4. eb3/4. f2/4. g2/4."), B("ab2/4. bb2/4. r/4. bb2/4."),
              B("eb3/4. r/4. r/2.", end="double")])
    w.append([B("!ff eb3/8 eb eb r bb2 r db3 d3", meter=(4, 4), reh="B", tempo="Gospel rock", mm=(4, 0, 126)), P(),
              B("ab2/8 ab ab r eb3 r c3 bb2"), P(), B("bb2/8 bb bb bb c3 c d d")])
    w.append(bars(eighths(["Eb", "Ab", "Eb", "Bb7", "Cm"]), first=K(start_repeat=True, above=["VAMP till cue"])))
    w.append(bars(eighths(["Ab", "Bb7"]), last=K(end="repeat-end")) + bars(
        eighths(["Fm", "Bb7", "Gm C7"]), first=K(start_repeat=True), last=K(end="repeat-end")))
    w.append(bars(eighths(["Fm", "Bb7", "Eb", "Ab Bb7", "Eb"]), first=K(reh="C")))
    w.append([B("ab2/4> r c3> r"), B("bb2/4> r d3> r"), R(above=["G.P."]), R(4, reh="D", above=["(A cappella)"]),
              B("r/2 r/4 bb2/4")])
    w.append(bars(eighths(["Eb", "Gm", "Ab", "Bb7", "Eb"]), first=K(reh="E", start_repeat=True), last=K(end="repeat-end")))
    w.append(bars(eighths(["Cm", "Gm", "Ab", "F7", "Bb7"]), first=K(start_repeat=True), last=K(end="repeat-end")))
    w.append([B("eb3/4> bb2> g2> bb2>"), B("ab2/2 bb2", above=["rall."]), B("eb3/1^", signs=["fermata"]),
              R(2, tempo="Bows"), B("eb3/8 eb eb r bb2 r g2 r"), B("eb3/4> r/2.", end="final")])
    return Page(9, "lilypond", "photo", [Block("8", "Saltmarsh (Finale and Bows)", w)])


def book():
    return [page1(), page2(), page3(), page4(), page5(), page6(), page7(), page8(), page9()]
