package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
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

  private static final Pattern TWO =
      phrase("(?:to\\s+)?(.+?)\\s*(?:\\band\\b|\\bor\\b|&|\\+|/)\\s*(.+)");

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
                    .map(name -> take(told, name, at.where()))
                    .or(() -> oneOfTwo(told, at)));
  }

  /** Nobody plays two at once: which one it is, is asked. */
  private static Optional<Heard<ShowChange>> oneOfTwo(Told<ShowChange> told, AtBar at) {
    Matcher two = TWO.matcher(at.what());
    if (!two.matches()) {
      return Optional.empty();
    }
    List<Heard.Reading<ShowChange>> readings =
        Stream.of(two.group(1), two.group(2))
            .flatMap(n -> InstrumentNames.read(n, told.chair()).stream())
            .flatMap(n -> take(told, n, at.where()).reading().stream())
            .toList();
    return readings.size() < 2
        ? Optional.empty()
        : Optional.of(told.choose("Which one is in hand there?", readings));
  }

  private static Heard<ShowChange> take(Told<ShowChange> told, String instrument, String where) {
    return told.at(
        where,
        new Instrument(told.meta(), told.number(), where, instrument),
        name -> instrument + " from bar " + name);
  }
}
