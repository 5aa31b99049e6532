package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.piece.Span;

/** Refuses cuts that name a beat of a bar whose meter nobody knows: it can't be counted there. */
public final class BeatCuts {
  private BeatCuts() {}

  /** Returns the changes without those cuts; each is asked about. */
  public static List<Span> known(
      WrittenNumber number, List<Span> spans, List<PlanFinding> findings) {
    List<Span> known = new ArrayList<>(spans.size());
    for (Span span : spans) {
      boolean from = span.fromBeat().isPresent() && unknown(number, span.from());
      boolean to = span.toBeat().isPresent() && unknown(number, span.to());
      if (span.effects().leavesOut() && (from || to)) {
        findings.add(asked(number, span, from ? span.from() : span.to()));
      } else {
        known.add(span);
      }
    }
    return known;
  }

  private static boolean unknown(WrittenNumber number, int slot) {
    return number.barAt(slot).meter().isEmpty();
  }

  private static PlanFinding asked(WrittenNumber number, Span span, int slot) {
    String name = number.nameAt(slot);
    String text =
        "The cut names a beat of bar "
            + name
            + " of "
            + number.spoken()
            + ", and its meter is not known: nothing is cut until the meter is set";
    Question question =
        new Question(
            Question.Topic.METER,
            Optional.of(name),
            List.of(new Question.Reading("nothing is cut", Optional.empty(), List.of())));
    return PlanFinding.change(
            Severity.ERROR,
            Optional.of(number.barAt(slot).id()),
            "beat-without-meter",
            text,
            span.change())
        .asking(question);
  }
}
