package org.barmap.score;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Compares the attributes of paired bar entries and the numbering. */
final class BarComparison {
  private static final String MULTI = "multi-rest";
  private final Comparison parent;
  private final Tally tally;
  private final boolean marks;
  private final boolean meters;
  private final boolean everything;

  BarComparison(Comparison parent, Tally tally, boolean marks, boolean meters, boolean everything) {
    this.parent = parent;
    this.tally = tally;
    this.marks = marks;
    this.meters = meters;
    this.everything = everything;
  }

  void run(List<ScoredBar> truths, List<ScoredBar> founds) {
    for (ScoredBar x : truths) {
      ScoredBar y = x.match;
      missed(x, y);
      content(x, y);
      mark(x, y);
      meter(x, y);
    }
    founds.forEach(this::found);
    for (int n = 0; n < truths.size(); n++) {
      anchor(truths, founds, n);
    }
  }

  private void missed(ScoredBar x, @Nullable ScoredBar y) {
    if (y == null) {
      // After inserting the bar its count has to be typed, and so on.
      if (x.content.equals(MULTI)) {
        tally.add("op_count", 1);
      }
      if (x.printed && meters) {
        tally.add("op_meter", 1);
      }
      if (!x.mark.isEmpty() && marks) {
        tally.add("op_reh", 1);
      }
    }
    if (x.hasNumber) {
      tally.add("num_n", 1);
      tally.add("num_ok", y != null && y.number != null && y.sameNumber(x));
    }
  }

  private void content(ScoredBar x, @Nullable ScoredBar y) {
    if (y != null && !x.hasContent) {
      if (x.hasCount && (y.count != x.count || (y.content.equals(MULTI) && x.count == 1))) {
        tally.add("op_count", 1);
        contentError(x, y);
      }
    } else if (y != null) {
      boolean same = y.content.equals(x.content);
      tally.add("ct_n", 1);
      tally.add("ct_ok", same);
      tally.add("ct:" + x.content + ">" + y.content, 1);
      if (!same || x.count != y.count) {
        tally.add("op_count", 1);
        contentError(x, y);
      }
    }
    if (x.content.equals(MULTI)) {
      boolean seen = y != null && y.content.equals(MULTI);
      tally.add("mr_t", 1);
      tally.add("mr_ok", y != null && seen && y.count == x.count);
      tally.add("mr_det", seen);
    }
  }

  private void contentError(ScoredBar x, ScoredBar y) {
    parent.error(
        "content",
        x.page,
        "%s is %s x%d, found %s x%d"
            .formatted(x.name(), x.hasContent ? x.content : "?", x.count, y.content, y.count));
  }

  private void mark(ScoredBar x, @Nullable ScoredBar y) {
    if (!marks) {
      return;
    }
    if (!x.mark.isEmpty()) {
      boolean ok = y != null && y.mark.equals(x.mark);
      tally.add("rh_t", 1);
      tally.add("rh_ok", ok);
      tally.add("rh_enc", ok && y != null && y.enclosure.equals(x.enclosure));
    }
    if (y != null && !x.mark.equals(y.mark)) {
      tally.add("op_reh", 1);
      parent.error(
          "rehearsal", x.page, "%s has '%s', found '%s'".formatted(x.name(), x.mark, y.mark));
    }
  }

  private void meter(ScoredBar x, @Nullable ScoredBar y) {
    if (!meters) {
      return;
    }
    if (x.printed) {
      tally.add("mt_t", 1);
      tally.add("mt_ok", y != null && y.printed && y.sameMeter(x));
    }
    if (y != null && (x.printed != y.printed || (x.printed && !x.sameMeter(y)))) {
      tally.add("op_meter", 1);
      parent.error(
          "meter", x.page, "%s prints %s, found %s".formatted(x.name(), figures(x), figures(y)));
    }
  }

  private static String figures(ScoredBar bar) {
    ScoredBar.MeterOf m = bar.meter;
    return !bar.printed || m == null ? "none" : m.beats() + "/" + m.unit();
  }

  private void found(ScoredBar y) {
    ScoredBar x = y.match;
    if (y.content.equals(MULTI)) {
      tally.add("mr_f", 1);
      tally.add(
          "mr_false", x == null || (!x.content.equals(MULTI) && (x.hasContent || x.hasCount)));
    }
    if (!y.mark.isEmpty() && marks) {
      tally.add("rh_f", 1);
    }
    if (y.printed && y.meter != null && meters) {
      tally.add("mt_f", 1);
    }
    if (everything && y.confidence != null) {
      boolean right =
          x != null
              && y.overlap > .7
              && x.content.equals(y.content)
              && x.count == y.count
              && x.mark.equals(y.mark)
              && x.printed == y.printed
              && (!x.printed || x.sameMeter(y));
      tally.bin(y.confidence, right);
      if (y.confidence >= .9 && !right) {
        tally.add("sure_wrong", 1);
      }
    }
  }

  /** Counts the places where the numbering has to be set by hand. */
  private void anchor(List<ScoredBar> truths, List<ScoredBar> founds, int n) {
    ScoredBar x = truths.get(n);
    if (x.number == null) {
      return;
    }
    Double jump = n == 0 ? null : jump(truths.get(n - 1), x);
    ScoredBar y = x.match;
    if (y == null) {
      if (jump == null || jump != 0) {
        tally.add("op_number", 1);
      }
      return;
    }
    if (y.sameNumber(x)) {
      return;
    }
    Double foundJump;
    if (y.number == null) {
      foundJump = 0.0;
    } else if (y.position == 0) {
      foundJump = null;
    } else {
      Double j = jump(founds.get(y.position - 1), y);
      foundJump = j == null ? Double.valueOf(0) : j;
    }
    if (jump == null || foundJump == null || !foundJump.equals(jump)) {
      tally.add("op_number", 1);
      parent.error("number", x.page, x.name() + " found as " + y.number);
    }
  }

  private static @Nullable Double jump(ScoredBar before, ScoredBar bar) {
    return before.number == null || bar.number == null
        ? null
        : bar.number - (before.number + before.count);
  }
}
