package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.barmap.map.Severity;
import org.barmap.plan.change.Choices;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.piece.BarNames;

/** Plays a number through in each way that is asked about, and writes what that comes to. */
final class Readings {
  /** Steps played through for the readings of one number; beyond that the words must do. */
  private static final int MOST_STEPS = 30_000;

  private final Function<Choices, OrderOfPlay> play;
  private final OrderOfPlay first;
  private final BarNames names;
  private final String firstText;
  private int steps;

  private Readings(OrderOfPlay first, Function<Choices, OrderOfPlay> play) {
    this.first = first;
    this.play = play;
    this.names = new BarNames(first.number());
    this.firstText = OrderText.of(first, names);
  }

  /**
   * Returns what was told and asked while a number was worked out.
   *
   * @param first the number, the first way everywhere
   * @param choices what was met on that way
   * @param play works the number out with other choices
   */
  static List<PlanFinding> of(
      OrderOfPlay first, Choices choices, Function<Choices, OrderOfPlay> play) {
    List<PlanFinding> findings = new ArrayList<>(choices.told());
    if (!choices.asked().isEmpty()) {
      Readings readings = new Readings(first, play);
      choices.asked().forEach(a -> readings.one(a).ifPresent(findings::add));
    }
    return findings;
  }

  private Optional<PlanFinding> one(Choices.Asked asked) {
    Map<String, Question.Reading> readings = new LinkedHashMap<>();
    for (int way = 0; way < asked.ways().size(); way++) {
      Choices.Way said = asked.ways().get(way);
      Optional<String> bars = bars(asked, way);
      if (bars.isPresent() || steps >= MOST_STEPS) {
        Question.Reading reading = new Question.Reading(said.says(), bars, said.instead());
        readings.putIfAbsent(bars.orElse("way " + way), reading);
      }
    }
    PlanFinding finding = asked.finding();
    if (readings.size() < 2 && asked.ways().size() > 1) {
      // All ways come to the same bars: what is said is enough.
      return asked.tells() ? Optional.of(told(finding)) : Optional.empty();
    }
    return Optional.of(
        finding.asking(new Question(asked.topic(), asked.about(), List.copyOf(readings.values()))));
  }

  private static PlanFinding told(PlanFinding finding) {
    Severity severity = finding.severity() == Severity.DOUBT ? Severity.INFO : finding.severity();
    return new PlanFinding(
        severity,
        finding.at(),
        finding.code(),
        finding.text(),
        finding.change(),
        finding.candidates(),
        Optional.empty());
  }

  /** Returns the bars of a way; nothing where it is none, or too long to be played through. */
  private Optional<String> bars(Choices.Asked asked, int way) {
    if (way == 0) {
      return Optional.of(firstText);
    }
    if (steps >= MOST_STEPS) {
      return Optional.empty();
    }
    OrderOfPlay other = play.apply(Choices.at(asked.key(), way));
    steps += first.pieces().size() + other.steps().size();
    boolean sounds =
        asked.heard().isEmpty()
            || other.steps().stream()
                .anyMatch(
                    s ->
                        s.piece()
                            .added()
                            .filter(a -> asked.heard().get().equals(a.change()))
                            .isPresent());
    boolean ends = other.steps().size() < Walk.MOST_STEPS;
    return sounds && ends ? Optional.of(OrderText.of(other, names)) : Optional.empty();
  }
}
