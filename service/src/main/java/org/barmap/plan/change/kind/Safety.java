package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
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
import org.barmap.plan.change.term.Pass;

/**
 * Bars repeated only if the director says so.
 *
 * @param pass in which pass of a repeat around them; empty for every one
 */
@JsonTypeName("safety")
public record Safety(Meta meta, String number, String first, String last, Optional<Pass> pass)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING = new Wording<>("safety", Safety::read);

  private static final Pattern SAFETY =
      phrase(
          "safety\\s*(?:at|on|bars?|:)?\\s*(.+)|(.+?)\\s+(?:is|are)\\s+(?:a\\s+)?safety|(.+?)\\s+safety");

  /** Makes a safety that is one in every pass. */
  public Safety(Meta meta, String number, String first, String last) {
    this(meta, number, first, last, Optional.empty());
  }

  @Override
  public Effects effects() {
    return Effects.going(Rounds.safety(pass));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(
        new Marking(
            Marking.Where.AROUND, "safety", "SAFETY" + pass.map(p -> " " + p.sign()).orElse("")));
  }

  @Override
  public String says() {
    return "safety " + Saying.range(first, last) + pass.map(p -> " " + p.says()).orElse("");
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Pass.Behind behind = Pass.off(told.words());
    Matcher m = SAFETY.matcher(behind.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    String said = m.group(1) != null ? m.group(1) : m.group(2) != null ? m.group(2) : m.group(3);
    return Optional.of(
        told.range(
            said,
            r -> new Safety(told.meta(), told.number(), r.first(), r.last(), behind.pass()),
            " are a safety" + behind.pass().map(p -> ", " + p.says() + " only").orElse("")));
  }
}
