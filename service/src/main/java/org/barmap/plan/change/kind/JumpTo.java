package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import org.barmap.map.Bar;
import org.barmap.map.Navigation;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Put;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Link;
import org.barmap.plan.change.term.Numerals;
import org.barmap.plan.change.term.TempoWords;

/** Other jumps than the printed ones, or printed ones that are taken in another way. */
public sealed interface JumpTo extends ShowChange
    permits JumpTo.Jump, JumpTo.Again, JumpTo.Without {

  /**
   * From a bar on to another: back in the same number, or on into a later one. A jump on in the
   * same number is a cut.
   *
   * @param from the last bar that is played before the jump
   * @param toNumber the number it lands in; empty for the same
   * @param to the bar it lands on
   * @param times how often it is taken, back in the same number; once where nothing is said
   */
  @JsonTypeName("jump")
  record Jump(
      Meta meta,
      String number,
      String from,
      Optional<String> toNumber,
      String to,
      Optional<Integer> times)
      implements JumpTo {
    static final Wording<ShowChange> WORDING =
        Wording.of(
            "",
            "(?:(?:from|after|at|jump\\s+from|go\\s+from)\\s+)?(.+?),?\\s+(?:(?:go|jump)\\s+)?back\\s+to\\s+(.+?)"
                + "(?:,?\\s+(once|twice|("
                + Numerals.CARDINAL
                + ")\\s*(?:times|x)))?",
            Jump::read);

    @Override
    public Optional<Stretch> where() {
      return toNumber.isPresent() ? Optional.empty() : Optional.of(new Stretch(to, from));
    }

    @Override
    public Effects effects() {
      return toNumber.isPresent() ? Effects.NONE : Effects.going(Rounds.times(times.orElse(1) + 1));
    }

    @Override
    public Optional<Marking> marking() {
      String sign = (times.orElse(1) + 1) + "X";
      return Optional.of(new Marking(Marking.Where.AROUND, "times", sign));
    }

    @Override
    public String says() {
      if (toNumber.isPresent()) {
        return "from "
            + Saying.one(from)
            + " to No. "
            + Saying.one(toNumber.get())
            + " bar "
            + Saying.one(to);
      }
      int often = times.orElse(1);
      String spoken = often < 3 ? Saying.often(often) : Saying.count(often) + " times";
      return "from " + Saying.one(from) + " back to " + Saying.one(to) + " " + spoken;
    }

    /** What is left of the numbers on both sides, and none of those between. */
    @Override
    public List<ShowChange> parts(List<String> night) {
      if (toNumber.isEmpty()) {
        return List.of(this);
      }
      List<ShowChange> parts = new ArrayList<>();
      parts.add(new Cut(meta, number, "the bar after " + from, "end"));
      int out = night.indexOf(number);
      int in = night.indexOf(toNumber.get());
      for (int i = out + 1; out >= 0 && i < in; i++) {
        parts.add(new CutNumber(meta, night.get(i)));
      }
      parts.add(
          new LinkChange(meta, number, Link.ATTACCA, toNumber, Optional.empty(), Optional.empty()));
      parts.add(new Cut(meta, toNumber.get(), "start", "the bar before " + to));
      return List.copyOf(parts);
    }

    private static Optional<Heard<ShowChange>> read(Told<ShowChange> told, Matcher m) {
      int times =
          m.group(4) != null
              ? Numerals.value(m.group(4)).orElse(1)
              : "twice".equalsIgnoreCase(m.group(3)) ? 2 : 1;
      String spoken = Saying.often(times);
      return Optional.of(
          told.range(
              m.group(2) + " to " + m.group(1),
              r ->
                  new Jump(
                      told.meta(),
                      told.number(),
                      r.last(),
                      Optional.empty(),
                      r.first(),
                      times == 1 ? Optional.empty() : Optional.of(times)),
              " are played again " + spoken));
    }
  }

  /**
   * A printed jump, hold or change of tempo that is not followed.
   *
   * @param first the bar it is printed in
   * @param sign "jump", "coda", "hold" or "tempo"
   */
  @JsonTypeName("without")
  record Without(Meta meta, String number, String first, String sign) implements JumpTo {
    static final Wording<ShowChange> WORDING =
        Wording.of(
            "",
            "(?:no|without|skip|omit|ignore|do(?:n't|\\s+not)\\s+(?:take|do|play))\\s+(?:the\\s+|any\\s+)?"
                + "(?:(d\\.?\\s?[cs]\\.?|da\\s+capo|dal\\s+segno|jump(?:\\s+back)?)|(fermata|hold|caesura)"
                + "|(rit(?:ard)?|rall|accel|ritardando|accelerando|rallentando)\\.?"
                + "|((?:jump\\s+to\\s+the\\s+)?coda(?:\\s+(?:jump|sign))?))"
                + "(?:\\s+(?:at|in|on|after|over)\\s+(.+))?",
            Without::read);

    @Override
    public Optional<Stretch> where() {
      return Optional.of(Stretch.at(first));
    }

    private Put.Printed printed() {
      return Put.Printed.valueOf(sign.toUpperCase(Locale.ROOT));
    }

    @Override
    public Effects effects() {
      return Effects.on(Course.putting(Put.without(printed())));
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(
          switch (printed()) {
            case JUMP -> Marking.at("times", "no jump");
            case CODA -> Marking.at("times", "no coda");
            case HOLD -> Marking.at("hold", "no hold");
            case TEMPO -> Marking.at("tempo", "no rit.");
          });
    }

    @Override
    public String says() {
      String what =
          switch (printed()) {
            case JUMP -> "jump";
            case CODA -> "coda";
            case HOLD -> "hold";
            case TEMPO -> "rit.";
          };
      return "no " + what + " at " + Saying.one(first);
    }

    private static Optional<Heard<ShowChange>> read(Told<ShowChange> told, Matcher m) {
      String sign =
          m.group(1) != null
              ? "jump"
              : m.group(2) != null ? "hold" : m.group(3) != null ? "tempo" : "coda";
      if (m.group(5) != null) {
        return Optional.of(at(told, sign, m.group(5)));
      }
      List<String> bars = told.bars(b -> printed(b, sign));
      if (bars.size() == 1) {
        return Optional.of(at(told, sign, bars.get(0)));
      }
      List<Heard.Reading<ShowChange>> readings =
          bars.stream().flatMap(b -> at(told, sign, b).reading().stream()).toList();
      return Optional.of(
          readings.isEmpty()
              ? told.asked(
                  "Nothing of the sort is printed there as it was read; at which bar?", List.of())
              : told.choose("At which bar?", readings));
    }

    private static boolean printed(Bar bar, String sign) {
      return switch (sign) {
        case "coda" -> bar.has(Navigation.TO_CODA);
        case "jump" -> bar.has(Navigation.DA_CAPO) || bar.has(Navigation.DAL_SEGNO);
        case "hold" -> bar.has(Navigation.FERMATA) || bar.has(Navigation.CAESURA);
        default -> {
          TempoWords.Kind kind = TempoWords.of(bar.words()).kind();
          yield kind == TempoWords.Kind.SLOWING || kind == TempoWords.Kind.QUICKENING;
        }
      };
    }

    private static Heard<ShowChange> at(Told<ShowChange> told, String sign, String bar) {
      String what =
          switch (sign) {
            case "jump" -> "the D.C. or D.S. at bar ";
            case "coda" -> "the jump to the coda after bar ";
            case "hold" -> "the hold at bar ";
            default -> "the change of tempo at bar ";
          };
      return told.at(
          bar,
          new Without(told.meta(), told.number(), bar, sign),
          name -> what + name + " is not taken");
    }
  }

  /** Repeats are taken again after a D.C. or D.S. */
  @JsonTypeName("repeats-after-jump")
  record Again(Meta meta, String number) implements JumpTo, ShowChange.Whole {
    static final Wording<ShowChange> WORDING =
        Wording.whole(
            "with\\s+repeats",
            "(?:(?:with|take|play)\\s+)(?:all\\s+)?(?:the\\s+)?repeats(?:\\s+(?:again|too|as\\s+well))?"
                + "(?:\\s+(?:on|after)\\s+(?:the\\s+)?(?:d\\.?\\s*[cs]\\.?|jump))?(?:\\s+(?:again|too|as\\s+well))?",
            told -> new Again(told.meta(), told.number()),
            "repeats are taken again after a D.C. or D.S");

    @Override
    public Same same() {
      return new Same(
          Effects.on(Course.REPEATING),
          Marking.at("times", "D.C./D.S. with repeats"),
          "with repeats");
    }
  }
}
