package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Wording;

/** The number is in the show, the player doesn't play in it. */
@JsonTypeName("tacet")
public record Tacet(Meta meta, String number) implements ShowChange.Whole {
  static final Wording<ShowChange> WORDING =
      Wording.whole(
          "tacet",
          "(?:(?:is|all|you're|we're)\\s+)*tacet(?:\\s+(?:throughout|(?:the\\s+)?whole\\s+number))?"
              + "|(?:you\\s+|we\\s+)?(?:lay|lays|sit|sits)\\s+out|(?:you\\s+)?(?:don't|do\\s+not)\\s+play|not\\s+played\\s+by\\s+us",
          told -> new Tacet(told.meta(), told.number()),
          "you don't play");

  @Override
  public Same same() {
    return new Same(Effects.silent(Silence.TACET), Marking.at("tacet", "TACET"), "tacet");
  }
}
