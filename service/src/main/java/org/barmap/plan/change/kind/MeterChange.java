package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Put;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Numerals;

/**
 * These bars in another meter; behind them the printed one holds again.
 *
 * @param meter "3/4"
 */
@JsonTypeName("meter")
public record MeterChange(Meta meta, String number, String first, String last, String meter)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING = new Wording<>("", MeterChange::read);

  private static final String FIGURES = "([1-9]\\d?)\\s*/\\s*(1|2|4|8|16|32)";
  private static final Pattern BEHIND =
      phrase("(.+?)\\s+(?:is\\s+|are\\s+|go(?:es)?\\s+)?(?:now\\s+)?in\\s+" + FIGURES);
  private static final Pattern MORE =
      phrase(
          "(?:add|insert|put)\\s+(an?|"
              + Numerals.CARDINAL
              + ")\\s+(?:extra\\s+|more\\s+)?beats?\\s+(?:to|in|into|onto|at\\s+the\\s+end\\s+of)\\s+(?:(?:bar|measure)\\s+)?(\\S+)");
  private static final Pattern LED =
      phrase("(?:in|meter)\\s+" + FIGURES + "\\s+(?:from|for|in|at)?\\s*(.+)");

  @Override
  public Effects effects() {
    String[] figures = meter.split("/");
    Meter said = new Meter(Integer.parseInt(figures[0]), Integer.parseInt(figures[1]), true);
    return Effects.on(Course.putting(Put.meter(said)));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(new Marking(Marking.Where.BRACKETED, "meter", meter));
  }

  @Override
  public String says() {
    return Saying.range(first, last) + " in " + meter;
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher behind = BEHIND.matcher(told.words());
    if (behind.matches()) {
      return Optional.of(heard(told, behind.group(1), behind.group(2) + "/" + behind.group(3)));
    }
    Matcher more = MORE.matcher(told.words());
    if (more.matches()) {
      return Optional.of(longer(told, more.group(2), Numerals.value(more.group(1)).orElse(1)));
    }
    Matcher led = LED.matcher(told.words());
    return led.matches()
        ? Optional.of(heard(told, led.group(3), led.group(1) + "/" + led.group(2)))
        : Optional.empty();
  }

  /** "Add a beat to bar 12": a bar of four has five then. */
  private static Heard<ShowChange> longer(Told<ShowChange> told, String bar, int beats) {
    return told.meterAt(bar)
        .map(m -> heard(told, bar, (m.beats() + beats) + "/" + m.unit()))
        .orElseGet(() -> told.asked("In which meter is the bar then?", List.of(bar + " in 5/4")));
  }

  private static Heard<ShowChange> heard(Told<ShowChange> told, String bars, String meter) {
    return told.range(
        bars,
        r -> new MeterChange(told.meta(), told.number(), r.first(), r.last(), meter),
        " are in " + meter);
  }
}
