package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/** The number is not in the show. */
@JsonTypeName("cut-number")
public record CutNumber(Meta meta, String number) implements ShowChange.OfNumber {
  static final Wording<ShowChange> WORDING = new Wording<>("", CutNumber::read);

  private static final Pattern CUT_ALL =
      Pattern.compile(
          "(?:(?:is|now|gone)\\s+|whole\\s+number\\s+)*(?:cut|out|omitted|omit|gone|skip|drop|lose|dropped)(?:\\s+(?:completely|entirely|(?:the\\s+)?(?:whole\\s+)?number))?",
          Wording.FLAGS);

  @Override
  public Effects effects() {
    return Effects.silent(Silence.CUT);
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at("cut-number", "CUT, on to the next number"));
  }

  @Override
  public String says() {
    return "cut the number";
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    return CUT_ALL.matcher(told.words()).matches()
        ? Optional.of(
            told.understood(new CutNumber(told.meta(), told.number()), "the number is cut"))
        : Optional.empty();
  }
}
