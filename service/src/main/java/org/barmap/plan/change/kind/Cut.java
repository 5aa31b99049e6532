package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/** Bars left out, both ends included; addresses may name beats. */
@JsonTypeName("cut")
public record Cut(Meta meta, String number, String first, String last)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING = new Wording<>("cut|jump|go\\s+from", Cut::read);

  private static final Pattern CUT =
      Pattern.compile(
          "(?:cut|omit|skip|leave out)\\s+(.+?)|(.+?)\\s+(?:is|are)\\s+(?:cut|out)", Wording.FLAGS);
  private static final Pattern JUMP =
      Pattern.compile(
          "(?:jump|go|cut)\\s+(?:straight\\s+)?(?:from|after)\\s+(?:(?:the\\s+)?end\\s+of\\s+)?(.+?),?\\s+(?:(?:straight\\s+)?(?:go\\s+)?to)\\s+(?:(?:the\\s+)?(?:beginning|start|top)\\s+of\\s+)?(.+)",
          Wording.FLAGS);

  @Override
  public Effects effects() {
    return Effects.LEFT_OUT;
  }

  /** Cuts that touch share their brackets, so the marks are made from all that is left out. */
  @Override
  public Optional<Marking> marking() {
    return Optional.empty();
  }

  @Override
  public String says() {
    return "cut " + Saying.range(first, last);
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher jump = JUMP.matcher(told.words());
    if (jump.matches() && !told.words().toLowerCase(Locale.ROOT).startsWith("cut")) {
      // "go from 33 to 50" leaves out what lies between
      String between = "end of " + jump.group(1) + " to beginning of " + jump.group(2);
      return Optional.of(cut(told, between));
    }
    Matcher cut = CUT.matcher(told.words());
    return cut.matches()
        ? Optional.of(cut(told, cut.group(1) == null ? cut.group(2) : cut.group(1)))
        : Optional.empty();
  }

  private static Heard<ShowChange> cut(Told<ShowChange> told, String said) {
    return told.range(
        said, r -> new Cut(told.meta(), told.number(), r.first(), r.last()), " are cut");
  }
}
