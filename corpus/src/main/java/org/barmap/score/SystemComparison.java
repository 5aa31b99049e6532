package org.barmap.score;

import java.util.Map;

/** Compares one paired system: barlines, their types, and which bar entry is which. */
final class SystemComparison {
  private final Comparison parent;
  private final Tally tally;
  private final Object page;
  private final ScoredMap.SystemOf truth;
  private final ScoredMap.SystemOf found;
  private final Axis axis;

  SystemComparison(
      Comparison parent,
      Tally tally,
      Object page,
      ScoredMap.SystemOf truth,
      ScoredMap.SystemOf found) {
    this.parent = parent;
    this.tally = tally;
    this.page = page;
    this.truth = truth;
    this.found = found;
    double[][] outline = truth.outline;
    if (outline == null) {
      throw new IllegalStateException("a paired system has an outline");
    }
    this.axis = new Axis(outline);
  }

  void run() {
    tally.add("bl_f", found.bars.size());
    tally.add("sysn_ok", truth.bars.size() == found.bars.size());
    Map<Integer, Integer> barlines = barlines();
    types(barlines);
    pairEntries();
  }

  private Map<Integer, Integer> barlines() {
    // Bar ENDS only, so that the convention at the start of the system plays no part.
    double tolerance = .75 * truth.staffSpace;
    Pairing pairing = new Pairing();
    for (int k = 0; k < truth.bars.size(); k++) {
      ScoredBar x = truth.bars.get(k);
      double end = end(x.corners());
      double low = end;
      double high = end;
      double[][] span = x.span;
      if (span != null) {
        double a = axis.at(span[0]);
        double b = axis.at(span[1]);
        low = Math.min(end, Math.min(a, b));
        high = Math.max(end, Math.max(a, b));
      }
      for (int l = 0; l < found.bars.size(); l++) {
        double[][] q = found.bars.get(l).outline;
        if (q != null) {
          double v = end(q);
          double d = Math.max(0, Math.max(low - v, v - high));
          if (d <= tolerance) {
            pairing.offer(d + 1e-3 * Math.abs(v - end), k, l);
          }
        }
      }
    }
    Map<Integer, Integer> pairs = pairing.pairs();
    tally.add("bl_tp", pairs.size());
    tally.add("op_bar", truth.bars.size() - pairs.size() + found.bars.size() - pairs.size());
    for (int k = 0; k < truth.bars.size(); k++) {
      if (!pairs.containsKey(k)) {
        parent.error("barline-missed", page, "end of " + truth.bars.get(k).name());
      }
    }
    for (int l = 0; l < found.bars.size(); l++) {
      if (!pairs.containsValue(l)) {
        parent.error("barline-extra", page, "end of found " + found.bars.get(l).id);
      }
    }
    return pairs;
  }

  private double end(double[][] q) {
    return axis.at(Polygons.middle(q[1], q[2]));
  }

  private void types(Map<Integer, Integer> barlines) {
    barlines.forEach(
        (k, l) -> {
          ScoredBar x = truth.bars.get(k);
          ScoredBar y = found.bars.get(l);
          if (!x.hasEnd) {
            return;
          }
          boolean same = x.end.equals(y.end);
          tally.add("et_n", 1);
          tally.add("et_ok", same);
          SignTally.barline(tally, x.end, y.end);
          if (!same) {
            parent.error("end-type", page, x.name() + " is " + x.end + ", found " + y.end);
            tally.add("op_type", 1);
          }
          if (!x.end.equals("single")) {
            tally.add("ets_ok", same);
          }
        });
    boolean ends = truth.bars.stream().allMatch(b -> b.hasEnd);
    boolean startsTrue = ends && startsWithRepeat(truth);
    boolean startsFound = ends && startsWithRepeat(found);
    tally.add("ets_n", startsTrue);
    tally.add("ets_f", startsFound);
    tally.add("ets_ok", startsTrue && startsFound);
    if (startsTrue != startsFound) {
      tally.add("op_type", 1);
      parent.error("end-type", page, "repeat sign at the start of the system");
    }
    for (int k = 0; k < truth.bars.size(); k++) {
      if (!truth.bars.get(k).end.equals("single")) {
        tally.add("ets_n", 1);
        if (!barlines.containsKey(k)) {
          tally.add("op_type", 1);
        }
      }
    }
    for (ScoredBar y : found.bars) {
      if (ends && !y.end.isEmpty() && !y.end.equals("single")) {
        tally.add("ets_f", 1);
      }
    }
  }

  private static boolean startsWithRepeat(ScoredMap.SystemOf system) {
    return !system.bars.isEmpty() && system.bars.get(0).start.equals("repeat-start");
  }

  private void pairEntries() {
    Pairing pairing = new Pairing();
    for (int k = 0; k < truth.bars.size(); k++) {
      for (int l = 0; l < found.bars.size(); l++) {
        double[][] q = l == 0 ? forgiven() : found.bars.get(l).outline;
        double overlap = q == null ? 0 : Polygons.iou(truth.bars.get(k).corners(), q);
        if (overlap > .5) {
          pairing.offer(-overlap, k, l);
        }
      }
    }
    pairing
        .pairs()
        .forEach(
            (k, l) -> {
              ScoredBar x = truth.bars.get(k);
              ScoredBar y = found.bars.get(l);
              x.match = y;
              y.match = x;
              x.overlap = -pairing.cost(k, l);
              y.overlap = x.overlap;
              if (x.overlap > .7) {
                tally.add("be_tp", 1);
              }
            });
  }

  /** The left side of a system's first bar, before or after clef and key, is convention. */
  private double @org.jspecify.annotations.Nullable [][] forgiven() {
    double[][] f = found.bars.get(0).outline;
    if (f == null || truth.bars.isEmpty()) {
      return f;
    }
    double[][] x = truth.bars.get(0).corners();
    double left = axis.at(Polygons.middle(x[0], x[3]));
    double v = axis.at(Polygons.middle(f[0], f[3]));
    if (-3 * truth.staffSpace <= v
        && v <= left + 12 * truth.staffSpace
        && axis.at(Polygons.middle(f[1], f[2])) > left) {
      return new double[][] {
        axis.point(f[0], f[1], left), f[1], f[2], axis.point(f[3], f[2], left)
      };
    }
    return f;
  }
}
