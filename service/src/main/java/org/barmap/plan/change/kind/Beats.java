package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Numerals;

/** How many beats the director shows in each of these bars. */
@JsonTypeName("beats")
public record Beats(Meta meta, String number, String first, String last, int beats)
    implements ShowChange.OfBars {
  /** As the schema has it. */
  private static final int MOST_BEATS = 32;

  static final Wording<ShowChange> WORDING =
      new Wording<>("in\\s+(?:one|two|three|four|six|\\d+)\\b", Beats::read);

  private static final Pattern FIRST = phrase("\\s+(?:to|through|thru|until|till)\\s|\\s*-\\s*|,");
  private static final Pattern BEATS =
      phrase(
          "(?:in|conducted\\s+in)\\s+("
              + Numerals.CARDINAL
              + ")(?:\\s+(?:at|from|for)?\\s*(.+))?|(.+?)\\s+(?:(?:is|are|now|goes|go)\\s+)*in\\s+("
              + Numerals.CARDINAL
              + ")");

  @Override
  public Effects effects() {
    return Effects.setting(InForce.beats(beats));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(new Marking(Marking.Where.BEATEN, "beats", "in " + beats));
  }

  @Override
  public String says() {
    return "in " + Saying.count(beats) + " from " + Saying.range(first, last);
  }

  /** Whole beats, or so many to each of them; five, seven, eight go in groups. */
  private static boolean shows(Meter meter, int beats) {
    int written = meter.beats();
    boolean grouped = written > 4 && written % 3 != 0;
    return written % beats == 0 || beats % written == 0 || (grouped && beats < written);
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = BEATS.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    OptionalInt beats = Numerals.value(m.group(1) == null ? m.group(4) : m.group(1));
    String said = m.group(1) == null ? m.group(3) : m.group(2);
    if (beats.isEmpty() || beats.getAsInt() < 1 || beats.getAsInt() > MOST_BEATS) {
      return Optional.empty();
    }
    boolean open =
        said == null
            || !said.matches("(?i).*(?:\\s(?:to|through|thru|until|till)\\s|[-\\u2013]).*");
    Optional<Meter> meter = told.meterAt(said == null ? "start" : FIRST.split(said)[0]);
    if (meter.filter(f -> !shows(f, beats.getAsInt())).isPresent()) {
      String figures = meter.get().beats() + "/" + meter.get().unit();
      return Optional.of(
          told.asked(
              "It is in "
                  + figures
                  + " there, and that isn't shown in "
                  + beats.getAsInt()
                  + "; is it another meter?",
              List.of((said == null ? "start to end" : said) + " in " + beats.getAsInt() + "/4")));
    }
    String range = said == null ? "start to end" : open ? said + " to end" : said;
    return Optional.of(
        told.range(
            range,
            r -> new Beats(told.meta(), told.number(), r.first(), r.last(), beats.getAsInt()),
            " are in " + beats.getAsInt()));
  }
}
