package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.reference.Jumps.Jump;
import org.barmap.plan.reference.print.WrittenNumber;

/** What cuts do to repeats and jumps, and what has to be asked. */
final class CutRules {

  private final WrittenNumber number;
  private final Cuts cuts;
  private final Questions questions;
  private List<Repeat> repeats = List.of();

  /** The repeat asked about is gone, and what is left of it is played in a row. */
  private boolean straight;

  CutRules(WrittenNumber number, Cuts cuts, Questions questions) {
    this.number = number;
    this.cuts = cuts;
    this.questions = questions;
  }

  /** Repeats that are left with these cuts. */
  List<Repeat> repeats(List<Repeat> all) {
    repeats = all;
    List<Repeat> left = new ArrayList<>();
    for (Repeat repeat : all) {
      if (!goneWhole(repeat)) {
        straight = false;
        Repeat now = kept(repeat) ? repeat : repeat.times(1);
        if (!straight) {
          left.add(now);
        }
      }
    }
    return left;
  }

  // Source: common practice: with all its bars out a repeat is out.
  private boolean goneWhole(Repeat repeat) {
    for (int at = repeat.from(); at <= repeat.to(); at++) {
      if (!cuts.gone(at)) {
        return false;
      }
    }
    return true;
  }

  private boolean kept(Repeat repeat) {
    // Source: common practice: a count that the director says himself is said of what he left in.
    boolean counted = repeat.kind() != Repeat.Kind.PRINTED && repeat.kind() != Repeat.Kind.OPEN;
    askLanding(repeat);
    if (repeat.times() < 2 || counted || lastEndingAlone(repeat)) {
      return true;
    }
    boolean kept = true;
    if (repeat.from() > 0 && cuts.over(repeat.from() - 1)) {
      // The trade texts say nothing: the player lands behind the forward repeat.
      kept &=
          ask(
                  "cut-repeat-start",
                  repeat.from(),
                  "a cut takes the start of a repeat and leaves its end",
                  "played once",
                  "still repeated")
              == 1;
    }
    for (int at = repeat.from(); at <= repeat.to(); at++) {
      // Source: common practice: who cuts bars in one pass has the others played, and goes back;
      // not so where an ending is out each time that it comes.
      int block = repeat.block(at);
      boolean ending =
          block > 0
              && cuts.endOutIn(at, repeat.endings().get(block - 1).passes(), repeat.lastPass());
      if (repeat.closesAt(at) && (cuts.endOut(at) || ending)) {
        // The trade texts say nothing: the player lands behind the backward repeat.
        kept &=
            ask(
                    "cut-repeat-end",
                    at,
                    "a cut takes the end of a repeat and leaves its start",
                    "the sign is out with its bar",
                    "still repeated")
                == 1;
      } else if (at < repeat.to() && repeat.block(at) != repeat.block(at + 1) && cuts.over(at)) {
        int reading =
            ask(
                "cut-ending-edge",
                at,
                "a cut runs into an ending",
                "its bars are out every time",
                "on from where it lands, bar by bar");
        straight |= reading == 1;
      }
    }
    return kept;
  }

  /**
   * Source: common practice: one plays on where a cut lands; an ending that the count leaves out
   * can't be landed on.
   */
  private void askLanding(Repeat repeat) {
    int endings = repeat.endings().size();
    if (repeat.times() > 1 || endings < 3 || !cuts.over(repeat.bodyTo())) {
      return;
    }
    for (int k = 1; k < endings - 1; k++) {
      int from = repeat.endings().get(k).from();
      if (cuts.endOut(from - 1) && !cuts.startOut(from)) {
        ask("cut-landing", from, "a cut lands on an ending that is left out", "the last ending");
      }
    }
  }

  // Source: common practice: with all before it out the last ending is played, once in any reading.
  private boolean lastEndingAlone(Repeat repeat) {
    int endings = repeat.endings().size();
    if (endings < 2 || repeat.endings().get(endings - 1).passes().size() > 1) {
      return false;
    }
    boolean alone = true;
    for (int at = repeat.from(); at < repeat.endings().get(endings - 1).from(); at++) {
      alone &= cuts.gone(at);
    }
    return alone;
  }

  /** What lies in an open stretch and may be meant to be out of it. */
  void inside(Repeat.Open open, Jumps jumps, List<Resolved.At> inserts) {
    boolean whole = true;
    for (int at = open.from(); at <= open.to(); at++) {
      whole &= cuts.gone(at);
    }
    if (whole) {
      // Source: common practice: with all its bars out a vamp is out, printed or not.
      return;
    }
    for (int at = open.from(); at <= open.to(); at++) {
      if (cuts.startOut(at) || cuts.endOut(at) || cuts.inOnePass(at)) {
        ask("open-cut", open.from(), "bars of an open stretch are cut", "the bars left");
      }
      boolean sign = at < open.to() && jumps.signAtEnd(at);
      if (sign || (at > open.from() && jumps.signAtStart(at))) {
        ask("open-jump", open.from(), "a sign inside an open stretch", "as printed");
      }
    }
    for (Resolved.At insert : inserts) {
      if (insert.from() >= open.from() && insert.from() < open.to()) {
        ask("open-insert", open.from(), "bars inserted in an open stretch", "they belong to it");
      }
    }
  }

  /** Jumps that are left with these cuts. */
  Jumps jumps(Jumps all) {
    if (all.isEmpty() || goneWhole(all)) {
      return all.isEmpty() ? all : Jumps.NONE;
    }
    List<Jump> left = new ArrayList<>();
    for (Jump jump : all.jumps()) {
      if (cuts.endOut(jump.at()) && askCut(jump.at(), "the D.C. or D.S.") == 0) {
        continue;
      }
      left.add(jump);
      if (jump.dalSegno() && cuts.startOut(jump.target())) {
        askTarget(jump.target(), "the segno");
      }
      for (int at = jump.target(); at <= jump.at(); at++) {
        if (cuts.inOnePass(at) && all.again(at) && Cuts.innermost(repeats, at) != null) {
          ask("cut-pass", at, "a pass of a stretch that sounds again after a jump", "counted on");
        }
      }
    }
    if (left.isEmpty()) {
      // Source: oracles.md, Order of play: without a jump nothing leads to the coda or the Fine.
      return Jumps.NONE;
    }
    int toCoda = all.toCoda();
    if (toCoda >= 0 && cuts.endOut(toCoda) && askCut(toCoda, "the To Coda") == 0) {
      toCoda = -1;
    }
    if (toCoda >= 0 && cuts.startOut(all.coda())) {
      askTarget(all.coda(), "the coda's beginning");
    }
    int fine = all.fine();
    if (fine >= 0
        && fine < number.size() - 1
        && cuts.endOut(fine)
        && askCut(fine, "the Fine") == 0) {
      fine = -1;
    }
    return new Jumps(left, toCoda, all.coda(), fine, all.withRepeats());
  }

  // Source: common practice: a jump with all it leads over is out as a whole.
  private boolean goneWhole(Jumps all) {
    if (all.jumps().size() != 1) {
      return false;
    }
    Jump jump = all.jumps().get(0);
    int to = Math.max(jump.at(), Math.max(all.coda(), all.fine()));
    for (int at = jump.target(); at <= to; at++) {
      if (!cuts.gone(at)) {
        return false;
      }
    }
    return true;
  }

  private int askCut(int at, String what) {
    // Source: the brief: a jump whose sign or target is cut is asked.
    return ask("cut-jump", at, "a cut takes " + what, "the sign is out", "the sign counts");
  }

  /** Where a jump leads to; the player lands behind the cut in any reading that is walked. */
  private void askTarget(int at, String what) {
    ask("cut-jump", at, "a cut takes " + what, "to the first bar left");
  }

  private int ask(String key, int at, String why, String... readings) {
    return questions.ask(key, number.asked(at), why, readings);
  }
}
