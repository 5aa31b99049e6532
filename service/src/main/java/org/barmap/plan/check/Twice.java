package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.piece.Span;

/** The same change of the same bars said twice counts once. */
public final class Twice {
  private Twice() {}

  /** Everything that two changes have in common when one of them is enough. */
  private record Same(String kind, Effects effects, Optional<Marking> marking, List<Object> bars) {
    static Same of(Span span) {
      return new Same(
          span.change().kind(),
          span.effects(),
          span.change().marking(),
          List.of(
              span.from(),
              span.to(),
              span.fromBeat(),
              span.toBeat(),
              span.fromAdded(),
              span.toAdded()));
    }
  }

  /**
   * Returns each change once; that it was said twice is a finding at the later one. Bars that are
   * added twice may be meant twice, so they stay.
   */
  public static List<Span> once(
      WrittenNumber number, List<Span> spans, List<PlanFinding> findings) {
    Map<Same, Span> seen = new HashMap<>();
    List<Span> once = new ArrayList<>();
    for (Span span : spans) {
      Span before =
          span.effects().added().isPresent() ? null : seen.putIfAbsent(Same.of(span), span);
      if (before == null) {
        once.add(span);
      } else {
        findings.add(told(number, span, before));
      }
    }
    return once;
  }

  private static PlanFinding told(WrittenNumber number, Span span, Span before) {
    String first = number.nameAt(span.from());
    String bars =
        span.from() == span.to()
            ? "bar " + first
            : "bars " + first + " to " + number.nameAt(span.to());
    return PlanFinding.change(
            Severity.DOUBT,
            Optional.of(number.barAt(span.from()).id()),
            "said-twice",
            number.spoken()
                + ": this "
                + span.change().kind()
                + " of "
                + bars
                + " is said twice; it counts once.",
            span.change())
        .asking(
            new Question(
                Question.Topic.DUPLICATE,
                Optional.of(first),
                List.of(
                    new Question.Reading(
                        "it counts once", Optional.empty(), List.of(before.change())))));
  }
}
