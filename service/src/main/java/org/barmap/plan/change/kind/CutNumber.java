package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Wording;

/** The number is not in the show. */
@JsonTypeName("cut-number")
public record CutNumber(Meta meta, String number) implements ShowChange.Whole {
  static final Wording<ShowChange> WORDING =
      Wording.whole(
          "",
          "(?:(?:is|now|gone)\\s+|whole\\s+number\\s+)*(?:cut|out|omitted|omit|gone|skip|drop|lose|dropped)(?:\\s+(?:completely|entirely|(?:the\\s+)?(?:whole\\s+)?number))?",
          told -> new CutNumber(told.meta(), told.number()),
          "the number is cut");

  @Override
  public Same same() {
    return new Same(
        Effects.silent(Silence.CUT),
        Marking.at("cut-number", "CUT, on to the next number"),
        "cut the number");
  }
}
