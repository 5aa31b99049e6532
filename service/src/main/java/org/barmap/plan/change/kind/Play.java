package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Numerals;

/** Bars played {@code times} times in all; 1 takes a printed repeat away. */
@JsonTypeName("play")
public record Play(Meta meta, String number, String first, String last, int times)
    implements ShowChange.OfBars {
  /** As the schema has it. */
  private static final int MOST_TIMES = 100;

  static final Wording<ShowChange> WORDING = new Wording<>("play", Play::read);

  /** "Repeat three times" can mean three or four times in all: common advice is never to say it. */
  static final Wording<ShowChange> REPEATED = new Wording<>("repeat", Play::repeated);

  private static final String TIMES =
      "(once|twice|(" + Numerals.CARDINAL + ")\\s*(?:times|x|\\u00D7)(?:\\s+in\\s+all)?)";
  private static final Pattern PLAY =
      Pattern.compile("(?:play\\s+)?(.+?),?\\s+" + TIMES, Wording.FLAGS);
  private static final Pattern REPEAT =
      Pattern.compile("repeat\\s+(.+?),?\\s+" + TIMES, Wording.FLAGS);

  @Override
  public Effects effects() {
    return Effects.going(Rounds.times(times));
  }

  @Override
  public Optional<Marking> marking() {
    String sign = times == 1 ? "play once" : times + "X";
    return Optional.of(new Marking(Marking.Where.AROUND, "times", sign));
  }

  @Override
  public String says() {
    String often = times == 1 ? "once" : Saying.count(times) + " times";
    return "play " + Saying.range(first, last) + " " + often;
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = PLAY.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    int times = times(m);
    if (times < 1 || times > MOST_TIMES) {
      return Optional.of(told.asked("How often in all? 1 to " + MOST_TIMES + " times.", List.of()));
    }
    return Optional.of(
        told.range(
            m.group(1),
            r -> new Play(told.meta(), told.number(), r.first(), r.last(), times),
            " are played " + spoken(times) + " in all"));
  }

  private static Optional<Heard<ShowChange>> repeated(Told<ShowChange> told) {
    Matcher m = REPEAT.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    int times = times(m);
    return Optional.of(
        told.asked(
            "How often in all?",
            List.of(
                "play " + m.group(1) + " " + spoken(times),
                "play " + m.group(1) + " " + spoken(times + 1))));
  }

  private static int times(Matcher m) {
    String said = m.group(2);
    if (said.equalsIgnoreCase("once")) {
      return 1;
    }
    return said.equalsIgnoreCase("twice") ? 2 : Numerals.value(m.group(3)).orElse(0);
  }

  private static String spoken(int times) {
    return times == 1 ? "once" : times == 2 ? "twice" : times + " times";
  }
}
