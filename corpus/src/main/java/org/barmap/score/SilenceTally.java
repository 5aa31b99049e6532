package org.barmap.score;

import java.util.List;

/**
 * Counts silent starts and ends of bars with music; right is one that says the same beats. Only in
 * truths that hold any: where none has one, nobody looked.
 */
final class SilenceTally {

  private SilenceTally() {}

  static void run(Tally tally, List<ScoredBar> truths, List<ScoredBar> founds) {
    if (truths.stream().allMatch(x -> x.silentStart == 0 && x.silentEnd == 0)) {
      return;
    }
    for (ScoredBar x : truths) {
      ScoredBar y = x.match;
      one(tally, "silent start", x.silentStart, y == null ? 0 : y.silentStart);
      one(tally, "silent end", x.silentEnd, y == null ? 0 : y.silentEnd);
    }
    for (ScoredBar y : founds) {
      if (y.match == null) {
        one(tally, "silent start", 0, y.silentStart);
        one(tally, "silent end", 0, y.silentEnd);
      }
    }
  }

  private static void one(Tally tally, String what, double truth, double found) {
    if (truth > 0 || found > 0) {
      boolean same = Math.abs(truth - found) < 0.01;
      SignTally.one(tally, what, truth > 0, found > 0, same);
    }
  }
}
