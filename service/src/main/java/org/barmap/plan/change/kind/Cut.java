package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.PassRule;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Pass;

/**
 * Bars left out, both ends included; addresses may name beats.
 *
 * @param pass in which pass only; empty where they are out for good
 */
@JsonTypeName("cut")
public record Cut(Meta meta, String number, String first, String last, Optional<Pass> pass)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING = new Wording<>("cut|jump|go\\s+from", Cut::read);

  private static final Pattern CUT =
      Pattern.compile(
          "(?:cut|omit|skip|leave out)\\s+(.+?)|(.+?)\\s+(?:is|are)\\s+(?:cut|out)", Wording.FLAGS);
  private static final Pattern JUMP =
      Pattern.compile(
          "(?:jump|go|cut)\\s+(?:straight\\s+)?(?:from|after)\\s+(?:(?:the\\s+)?end\\s+of\\s+)?(.+?),?\\s+(?:(?:straight\\s+)?(?:go\\s+)?to)\\s+(?:(?:the\\s+)?(?:beginning|start|top)\\s+of\\s+)?(.+)",
          Wording.FLAGS);

  /** Makes a cut for good. */
  public Cut(Meta meta, String number, String first, String last) {
    this(meta, number, first, last, Optional.empty());
  }

  @Override
  public Effects effects() {
    return pass.isEmpty()
        ? Effects.LEFT_OUT
        : Effects.on(Course.in(new PassRule(PassRule.Does.CUT, pass)));
  }

  /** Cuts that touch share their brackets, so the marks are made from all that is left out. */
  @Override
  public Optional<Marking> marking() {
    return pass.map(p -> new Marking(Marking.Where.BRACKETED, "cut-pass", "out " + p.sign()));
  }

  @Override
  public String says() {
    return "cut " + Saying.range(first, last) + pass.map(p -> " " + p.says()).orElse("");
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
    Pass.Behind behind = Pass.behind(said);
    return told.range(
        behind.words(),
        r -> new Cut(told.meta(), told.number(), r.first(), r.last(), behind.pass()),
        " are cut" + behind.pass().map(p -> ", " + p.says()).orElse(""));
  }
}
