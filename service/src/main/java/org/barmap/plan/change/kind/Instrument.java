package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Optional;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.AtBar;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.InstrumentNames;

/** The instrument to have ready at a bar. */
@JsonTypeName("instrument")
public record Instrument(Meta meta, String number, String first, String to)
    implements ShowChange.FromBar {
  static final Wording<ShowChange> WORDING = new Wording<>("", Instrument::read);

  @Override
  public Effects effects() {
    return Effects.setting(InForce.instrument(to));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at("instrument", "to " + to));
  }

  @Override
  public String says() {
    return Saying.one(to) + " from " + Saying.one(first);
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    return AtBar.read(told.words())
        .flatMap(
            at ->
                InstrumentNames.read(at.what(), told.chair())
                    .map(name -> take(told, name, at.where())));
  }

  private static Heard<ShowChange> take(Told<ShowChange> told, String instrument, String where) {
    return told.at(
        where,
        new Instrument(told.meta(), told.number(), where, instrument),
        name -> instrument + " from bar " + name);
  }
}
