package org.barmap.plan.piece;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.PassRule;

/** Takes bars that are in again out of the cuts said before. */
final class Restored {
  private Restored() {}

  /** Returns the spans in their order, cuts without what a later change puts in again. */
  static List<Span> of(WrittenNumber number, List<Span> spans, List<PlanFinding> findings) {
    if (spans.stream().noneMatch(s -> s.effects().course().restores())) {
      return spans;
    }
    List<Span> now = new ArrayList<>();
    for (Span span : spans) {
      if (span.effects().course().restores()) {
        List<Span> left = new ArrayList<>();
        boolean any = false;
        for (Span before : now) {
          boolean back = cuts(before) && before.from() <= span.to() && before.to() >= span.from();
          any |= back;
          if (back) {
            left.addAll(without(before, span));
          } else {
            left.add(before);
          }
        }
        now = left;
        if (!any) {
          findings.add(notOut(number, span));
        }
      } else {
        now.add(span);
      }
    }
    return now;
  }

  private static boolean cuts(Span span) {
    return span.effects().leavesOut()
        || span.effects().course().inPass().filter(r -> r.does() == PassRule.Does.CUT).isPresent();
  }

  private static List<Span> without(Span cut, Span back) {
    List<Span> left = new ArrayList<>();
    boolean headBeats = back.fromBeat().orElse(1) > 1;
    int headEnd = headBeats ? back.from() : back.from() - 1;
    if (cut.from() <= headEnd) {
      OptionalDouble toBeat =
          headBeats ? OptionalDouble.of(back.fromBeat().getAsDouble() - 1) : OptionalDouble.empty();
      left.add(new Span(cut.change(), cut.effects(), cut.from(), headEnd, cut.fromBeat(), toBeat));
    }
    int tailStart = back.toBeat().isPresent() ? back.to() : back.to() + 1;
    if (cut.to() >= tailStart) {
      OptionalDouble fromBeat =
          back.toBeat().isPresent()
              ? OptionalDouble.of(back.toBeat().getAsDouble() + 1)
              : OptionalDouble.empty();
      left.add(new Span(cut.change(), cut.effects(), tailStart, cut.to(), fromBeat, cut.toBeat()));
    }
    return left;
  }

  private static PlanFinding notOut(WrittenNumber number, Span span) {
    String bars =
        span.from() == span.to()
            ? "Bar " + number.nameAt(span.from()) + " is"
            : "Bars " + number.nameAt(span.from()) + " to " + number.nameAt(span.to()) + " are";
    return PlanFinding.change(
        Severity.DOUBT,
        Optional.of(number.barAt(span.from()).id()),
        "no-effect",
        bars + " not out by any change before, so there is nothing to put in again.",
        span.change());
  }
}
