package org.barmap.score;

import java.util.List;
import java.util.Objects;

/**
 * Counts each kind of sign: how many the truth has, how many were found, how many of these are
 * right. Bars without a partner count as missed and invented. Only in whole truths: where a truth
 * lists what it judged, these counts are left out.
 */
final class SignTally {
  private static final String PREFIX = "sg:";
  private final Tally tally;
  private final boolean everything;

  SignTally(Tally tally, boolean everything) {
    this.tally = tally;
    this.everything = everything;
  }

  static void barline(Tally tally, String truth, String found) {
    one(tally, "barline " + truth, true, truth.equals(found), truth.equals(found));
    if (!truth.equals(found) && !found.isEmpty()) {
      one(tally, "barline " + found, false, true, false);
    }
  }

  static void one(Tally tally, String sign, boolean truth, boolean found, boolean right) {
    tally.add(PREFIX + sign + ":t", truth);
    tally.add(PREFIX + sign + ":f", found);
    tally.add(PREFIX + sign + ":tp", right);
  }

  void run(List<ScoredBar> truths, List<ScoredBar> founds) {
    if (!everything) {
      return;
    }
    for (ScoredBar x : truths) {
      ScoredBar y = x.match;
      if (x.hasContent && !x.content.equals("music")) {
        String sign = x.content;
        boolean same = y != null && y.content.equals(sign);
        one(tally, sign, true, same, same);
      }
      if (x.hasSigns || x.hasContent) {
        for (String s : x.signs) {
          boolean same = y != null && y.signs.contains(s);
          one(tally, s, true, same, same);
        }
        if (!x.ending.isEmpty()) {
          boolean same = y != null && y.ending.equals(x.ending);
          one(tally, "ending", true, same, same);
        }
      }
    }
    for (ScoredBar y : founds) {
      invented(y, y.match);
    }
    SilenceTally.run(tally, truths, founds);
  }

  private void invented(ScoredBar y, @org.jspecify.annotations.Nullable ScoredBar x) {
    if (!y.content.equals("music") && (x == null || x.hasContent)) {
      if (x == null || !x.content.equals(y.content)) {
        one(tally, y.content, false, true, false);
      }
    }
    if (x != null && !x.hasSigns && !x.hasContent) {
      return;
    }
    for (String s : y.signs) {
      if (x == null || !x.signs.contains(s)) {
        one(tally, s, false, true, false);
      }
    }
    if (!y.ending.isEmpty() && (x == null || !x.ending.equals(y.ending))) {
      one(tally, "ending", false, true, false);
    }
  }

  static void printedNumbers(
      Tally tally, List<ScoredMap.SystemOf> truths, List<ScoredMap.SystemOf> founds) {
    for (ScoredMap.SystemOf s : truths) {
      Object got =
          founds.stream()
              .filter(f -> overlap(s, f) > .5)
              .map(f -> f.printedNumber)
              .filter(Objects::nonNull)
              .findFirst()
              .orElse(null);
      boolean same = s.printedNumber != null && s.printedNumber.equals(got);
      if (s.printedNumber != null) {
        one(tally, "printed bar number", true, got != null, same);
      } else if (got != null) {
        one(tally, "printed bar number", false, true, false);
      }
    }
  }

  private static double overlap(ScoredMap.SystemOf a, ScoredMap.SystemOf b) {
    return a.outline == null || b.outline == null ? 0 : Polygons.iou(a.outline, b.outline);
  }
}
