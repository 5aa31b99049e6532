package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.Meter;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Figures;
import org.barmap.plan.piece.Span;

/**
 * Bars with notes that a change puts into a shorter meter: which of the written beats are left out
 * nobody knows until it is said (common practice: the director says "drop the last beat").
 */
public final class ShorterMeter {
  private static final double QUARTERS = 4;

  private ShorterMeter() {}

  /** Returns what is asked about beats that a shorter meter has no room for. */
  public static List<PlanFinding> asked(WrittenNumber number, List<Span> spans) {
    List<PlanFinding> findings = new ArrayList<>();
    for (Span span : spans) {
      Optional<Meter> meter = span.effects().course().put().flatMap(p -> p.meter());
      meter.flatMap(m -> first(number, span, m, spans)).ifPresent(findings::add);
      meter.flatMap(m -> counted(number, span, m, spans)).ifPresent(findings::add);
    }
    return findings;
  }

  /** The first bar of a change that loses notes stands for the others. */
  private static Optional<PlanFinding> first(
      WrittenNumber number, Span span, Meter now, List<Span> spans) {
    for (int slot = span.from(); slot <= span.to(); slot++) {
      Bar bar = number.barAt(slot);
      Optional<Meter> written = bar.meter().filter(m -> quarters(m) > quarters(now));
      if (!bar.isRest() && written.isPresent() && !said(spans, slot, written.get(), now)) {
        return Optional.of(finding(number, span, slot, written.get(), now));
      }
    }
    return Optional.empty();
  }

  /** A cut by beats of a bar that gets another meter may be counted in either. */
  private static Optional<PlanFinding> counted(
      WrittenNumber number, Span span, Meter now, List<Span> spans) {
    for (int slot = span.from(); slot <= span.to(); slot++) {
      Optional<Meter> written = number.barAt(slot).meter().filter(m -> !alike(m, now));
      int at = slot;
      boolean beats =
          spans.stream()
              .filter(s -> s.effects().leavesOut())
              .anyMatch(
                  s ->
                      (s.from() == at && s.fromBeat().isPresent())
                          || (s.to() == at && s.toBeat().isPresent()));
      if (beats && written.isPresent()) {
        double less = (quarters(written.get()) - quarters(now)) * written.get().unit() / QUARTERS;
        if (Math.abs(out(spans, slot, written.get()) - less) > Figures.SAME) {
          String text =
              number.spoken()
                  + ": bar "
                  + number.nameAt(slot)
                  + " is written in "
                  + figures(written.get())
                  + " and played in "
                  + figures(now)
                  + "; in which of them are the beats of the cut counted?";
          Optional<String> id = Optional.of(number.barAt(slot).id());
          return Optional.of(
              PlanFinding.change(Severity.DOUBT, id, "meter-beats", text, span.change()));
        }
      }
    }
    return Optional.empty();
  }

  private static boolean alike(Meter one, Meter other) {
    return one.beats() == other.beats() && one.unit() == other.unit();
  }

  /** Tells whether a cut says which beats of a bar go, or the bar is out altogether. */
  private static boolean said(List<Span> spans, int slot, Meter written, Meter now) {
    double less = (quarters(written) - quarters(now)) * written.unit() / QUARTERS;
    return out(spans, slot, written) >= less - Figures.SAME;
  }

  /** Returns how many beats of a bar cuts take. */
  private static double out(List<Span> spans, int slot, Meter written) {
    double out = 0;
    for (Span cut : spans) {
      if (cut.effects().leavesOut() && cut.from() <= slot && cut.to() >= slot) {
        double first = cut.from() == slot ? cut.fromBeat().orElse(1) : 1;
        double last = cut.to() == slot ? cut.toBeat().orElse(written.beats()) : written.beats();
        out += last - first + 1;
      }
    }
    return out;
  }

  private static double quarters(Meter meter) {
    return meter.beats() * QUARTERS / meter.unit();
  }

  private static PlanFinding finding(
      WrittenNumber number, Span span, int slot, Meter written, Meter now) {
    String name = number.nameAt(slot);
    String text =
        number.spoken()
            + ": bar "
            + name
            + " is written in "
            + figures(written)
            + " and played in "
            + figures(now)
            + "; which beats are left out?";
    List<Question.Reading> readings = new ArrayList<>();
    for (String out : out(written, now)) {
      readings.add(Question.Reading.of(out));
    }
    readings.add(Question.Reading.of("none, it is written anew"));
    return PlanFinding.change(
            Severity.DOUBT,
            Optional.of(number.barAt(slot).id()),
            "meter-shorter",
            text,
            span.change())
        .asking(new Question(Question.Topic.BEATS, Optional.of(name), readings));
  }

  private static List<String> out(Meter written, Meter now) {
    double less = (quarters(written) - quarters(now)) * written.unit() / QUARTERS;
    int beats = (int) Math.rint(less);
    if (Math.abs(less - beats) > Figures.SAME) {
      return List.of("what is too long at the end", "what is too long at the start");
    }
    int last = written.beats();
    return List.of(without(last - beats + 1, last), without(1, beats));
  }

  private static String without(int from, int to) {
    List<String> beats = IntStream.rangeClosed(from, to).mapToObj(Integer::toString).toList();
    int last = beats.size() - 1;
    return last == 0
        ? "without beat " + beats.get(0)
        : "without beats " + String.join(", ", beats.subList(0, last)) + " and " + beats.get(last);
  }

  private static String figures(Meter meter) {
    return meter.beats() + "/" + meter.unit();
  }
}
