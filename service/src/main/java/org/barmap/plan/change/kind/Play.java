package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.effect.Stretch;
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
  static final Wording<ShowChange> REPEATED = new Wording<>("repeat|tag", Play::repeated);

  /** "No repeat", "no vamp", "straight to the second ending": what is printed is not followed. */
  static final Wording<ShowChange> ONCE =
      new Wording<>("no\\s+(?:repeats?|vamps?|safety)|straight\\s+to", Play::once);

  private static final String TIMES =
      "(once|twice|(" + Numerals.CARDINAL + ")\\s*(?:times|x|\\u00D7)(?:\\s+in\\s+all)?)";
  private static final Pattern PLAY = phrase("(?:play\\s+)?(.+?),?\\s+(?:only\\s+)?" + TIMES);
  private static final Pattern TIMES_FIRST =
      phrase(
          "(?:play\\s+)?(?:(once|twice|"
              + Numerals.CARDINAL
              + "\\s*(?:times|x))\\s+(.+)|(.+?),?\\s+x\\s*("
              + Numerals.CARDINAL
              + "))");
  private static final Pattern REPEAT = phrase("(repeat|tag)\\s+(.+?),?\\s+" + TIMES);
  private static final Pattern AGAIN = phrase("(repeat|tag)\\s+(.+)");
  private static final Pattern NOT_AGAIN =
      phrase(
          "(?:no|without|skip|omit|cut|ignore|do(?:n't|\\s+not)(?:\\s+take)?)\\s+(?:the\\s+|any\\s+)?"
              + "(repeats?(?:\\s+sign)?|vamp|safety)"
              + "(?:\\s+(?:(?:at|in|of|from|on)\\s+|(?=\\d|\\p{L}{1,2}\\b))(.+))?");
  private static final Pattern OF_PRINTED =
      phrase(
          "(?:(?:play|take|do)\\s+)?(?:only\\s+)?(?:the\\s+)?(vamp|safety|repeat)\\s+(?:(?:is|only|just|now)\\s+)*"
              + TIMES
              + "(?:\\s+only)?");
  private static final Pattern TO_ENDING =
      phrase(
          "(?:(?:go\\s+|jump\\s+)?(?:straight|right|directly)\\s+(?:in)?to|take|play|only|(?:go|jump|skip)\\s+to)\\s+(?:only\\s+)?(?:the\\s+)?("
              + Numerals.ORDINAL
              + "|last)(?:[\\s-]time)?[\\s-](?:ending|bars?)(?:\\s+(?:only|straight\\s+away|first\\s+time))?"
              + "|(?:no|cut|skip|omit|without)\\s+(?:the\\s+)?(?:first|1st)[\\s-](?:time[\\s-])?(?:ending|bars?)");

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
    if (m.matches()) {
      return Optional.of(play(told, m.group(1), times(m.group(2))));
    }
    Matcher first = TIMES_FIRST.matcher(told.words());
    if (!first.matches()) {
      return Optional.empty();
    }
    String bars = first.group(2) == null ? first.group(3) : first.group(2);
    String often = first.group(1) == null ? first.group(4) : first.group(1);
    return told.namesBars(bars) ? Optional.of(play(told, bars, times(often))) : Optional.empty();
  }

  private static Heard<ShowChange> play(Told<ShowChange> told, String bars, int times) {
    return times < 1 || times > MOST_TIMES
        ? told.asked("How often in all? 1 to " + MOST_TIMES + " times.", List.of())
        : told.range(
            bars,
            r -> new Play(told.meta(), told.number(), r.first(), r.last(), times),
            " are played " + Saying.often(times) + " in all");
  }

  private static Optional<Heard<ShowChange>> repeated(Told<ShowChange> told) {
    Matcher m = REPEAT.matcher(told.words());
    if (m.matches()) {
      int times = times(m.group(3));
      return Optional.of(either(told, m.group(2), times, times + 1));
    }
    Matcher again = AGAIN.matcher(told.words());
    if (!again.matches() || !told.namesBars(again.group(2))) {
      return Optional.empty();
    }
    // A tag is the last bars once more, or twice: houses differ.
    return Optional.of(
        again.group(1).equalsIgnoreCase("tag")
            ? either(told, again.group(2), 2, 3)
            : play(told, again.group(2), 2));
  }

  private static Heard<ShowChange> either(Told<ShowChange> told, String bars, int one, int other) {
    List<Heard.Reading<ShowChange>> readings = new ArrayList<>();
    for (int times : List.of(one, other)) {
      Heard<ShowChange> heard = play(told, bars, times);
      if (heard instanceof Heard.Understood<ShowChange> understood) {
        readings.add(new Heard.Reading<>(understood.sentence(), List.of(understood.change())));
      } else if (readings.isEmpty()) {
        return heard;
      }
    }
    return told.choose("How often in all?", readings);
  }

  private static Optional<Heard<ShowChange>> once(Told<ShowChange> told) {
    Matcher no = NOT_AGAIN.matcher(told.words());
    Matcher ending = TO_ENDING.matcher(told.words());
    Matcher printed = OF_PRINTED.matcher(told.words());
    if (printed.matches()) {
      return Optional.of(printed(told, printed.group(1), times(printed.group(2))));
    }
    if (no.matches()) {
      String at = no.group(2);
      if (at != null && at.matches("(?i).*(?:\\d\\s*-|\\sto\\s).*")) {
        return Optional.of(play(told, at, 1));
      }
      String what = no.group(1).toLowerCase(Locale.ROOT);
      return Optional.of(
          what.startsWith("repeat")
              ? once(told, told.repeats(), "repeat")
              : once(told, told.open(what), what));
    }
    if (!ending.matches()) {
      return Optional.empty();
    }
    List<Told.PrintedRepeat> those = told.repeats().stream().filter(r -> r.endings() > 1).toList();
    int nth = ending.group(1) == null ? 2 : Numerals.value(ending.group(1)).orElse(2);
    return Optional.of(
        nth < 2
            ? told.asked("The first ending leads back; which bars are left out?", List.of())
            : once(told, those, "repeat with endings"));
  }

  /** "The vamp four times": the bars are those that are printed so. */
  private static Heard<ShowChange> printed(Told<ShowChange> told, String said, int times) {
    String what = said.toLowerCase(Locale.ROOT);
    List<Told.PrintedRepeat> those =
        what.equals("repeat")
            ? told.repeats().stream().filter(r -> r.open().isEmpty()).toList()
            : told.open(what);
    if (those.size() == 1) {
      Stretch bars = those.get(0).bars();
      return play(told, bars.first() + " to " + bars.last(), times);
    }
    return told.asked(
        those.isEmpty()
            ? "There is no " + what + " in the number as it was read; name the bars."
            : "Which " + what + "? Name its bars.",
        those.stream()
            .map(
                r ->
                    "play "
                        + r.bars().first()
                        + " to "
                        + r.bars().last()
                        + " "
                        + Saying.often(times))
            .toList());
  }

  private static Heard<ShowChange> once(
      Told<ShowChange> told, List<Told.PrintedRepeat> repeats, String what) {
    List<Heard.Reading<ShowChange>> readings =
        repeats.stream()
            .map(
                r ->
                    new Heard.Reading<ShowChange>(
                        r.says()
                            + (r.says().startsWith("bar ") ? " is played once" : " are played once")
                            + (r.endings() > 1 ? ", with the last ending" : ""),
                        List.of(
                            new Play(
                                told.meta(), told.number(), r.bars().first(), r.bars().last(), 1))))
            .toList();
    if (readings.isEmpty()) {
      return told.asked(
          "There is no " + what + " in the number as it was read; name the bars.",
          List.of("play 1 to 8 once"));
    }
    return readings.size() == 1
        ? told.understood(readings.get(0).changes().get(0), readings.get(0).says())
        : told.choose("Which repeat?", readings);
  }

  private static int times(String said) {
    return switch (said.toLowerCase(Locale.ROOT)) {
      case "once" -> 1;
      case "twice" -> 2;
      default -> Numerals.value(said.replaceFirst("(?i)\\s*(?:times|x|\u00D7).*", "")).orElse(0);
    };
  }
}
