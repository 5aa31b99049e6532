package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.TempoWords;
import org.barmap.plan.piece.Span;

/** "A bit brighter from C": a change that says another tempo without its figure is asked for it. */
public final class TempoAsked {
  private TempoAsked() {}

  /** Returns what is asked about a number. */
  public static List<PlanFinding> of(WrittenNumber number, List<Span> spans) {
    List<PlanFinding> findings = new ArrayList<>();
    for (Span span : spans) {
      Optional<String> word = span.effects().course().put().flatMap(p -> p.word());
      boolean other =
          word.filter(w -> TempoWords.read(w).kind() == TempoWords.Kind.OTHER).isPresent();
      if (!other) {
        continue;
      }
      String bar = number.nameAt(span.from());
      String text =
          "How fast is \""
              + word.get()
              + "\" from bar "
              + bar
              + "? Without a figure nobody knows how long what follows is.";
      findings.add(
          PlanFinding.change(
                  Severity.DOUBT,
                  Optional.of(number.barAt(span.from()).id()),
                  "tempo-figure",
                  text,
                  span.change())
              .asking(
                  new Question(
                      Question.Topic.TEMPO,
                      Optional.of(bar),
                      List.of(Question.Reading.of("nobody knows yet: its times stay unknown")))));
    }
    return findings;
  }
}
