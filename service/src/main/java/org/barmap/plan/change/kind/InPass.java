package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

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

/** Bars that go on for everybody, while this player plays in some passes and rests in others. */
public sealed interface InPass extends ShowChange.OfBars permits InPass.Only, InPass.Not {

  /** Bars this player plays in one pass only. */
  @JsonTypeName("only")
  record Only(Meta meta, String number, String first, String last, Pass pass) implements InPass {
    static final Wording<ShowChange> WORDING =
        new Wording<>("(?:the\\s+)?(?:last|\\d+(?:st|nd|rd|th))\\s+(?:time|x)\\s+only", Only::read);

    private static final Pattern OTHERS =
        phrase(
            "(?:cut|vamp|safety|hold|fermata|g\\.?\\s*p\\b\\.?|general\\s+pause|grand\\s+pause|dead\\s+stop|caesura)\\b.*");

    private static final Pattern LED =
        phrase(
            "(?:only\\s+)?("
                + Pass.SAID
                + ")(\\s+only)?\\s*[:,]?\\s+(?:only\\s+)?(?:play\\s+)?(.+)");

    @Override
    public Effects effects() {
      return Effects.on(Course.in(new PassRule(PassRule.Does.ONLY, Optional.of(pass))));
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(new Marking(Marking.Where.BRACKETED, "passes", pass.sign() + " only"));
    }

    @Override
    public String says() {
      return "play " + Saying.range(first, last) + " " + pass.says() + " only";
    }

    private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
      String words = told.words();
      if (!words.toLowerCase(Locale.ROOT).matches(".*\\bonly\\b.*")
          || OTHERS.matcher(Pass.off(words).words()).matches()) {
        return Optional.empty();
      }
      Pass.Behind behind = Pass.behind(words);
      if (behind.pass().isPresent()) {
        String bars =
            behind
                .words()
                .replaceFirst("(?i)^(?:only\\s+)?play\\s+", "")
                .replaceFirst("(?i)\\s+only$|^only\\s+", "");
        return Optional.of(heard(told, bars, behind.pass().get()));
      }
      Matcher led = LED.matcher(words);
      return led.matches()
          ? Pass.read(led.group(1)).map(p -> heard(told, led.group(3), p))
          : Optional.empty();
    }

    private static Heard<ShowChange> heard(Told<ShowChange> told, String bars, Pass pass) {
      return told.range(
          bars,
          r -> new Only(told.meta(), told.number(), r.first(), r.last(), pass),
          " are played " + pass.says() + " only");
    }
  }

  /** Bars this player doesn't play, in one pass or in all. */
  @JsonTypeName("not")
  record Not(Meta meta, String number, String first, String last, Optional<Pass> pass)
      implements InPass {
    static final Wording<ShowChange> WORDING = new Wording<>("tacet", Not::read);

    private static final Pattern TACET =
        phrase(
            "(?:tacet|don['\\u2019]?t\\s+play|not)(?:\\s+(?:in|at|for))?\\s+(.+)|(.+?)\\s+(?:is\\s+|are\\s+)?tacet(?:\\s+("
                + Pass.SAID
                + "))?");
    private static final Pattern LED = phrase("(" + Pass.SAID + ")(?:\\s+only)?[:,]?\\s+(.+)");
    private static final Pattern ALONE = phrase(Pass.SAID);

    @Override
    public Effects effects() {
      return Effects.on(Course.in(new PassRule(PassRule.Does.NOT, pass)));
    }

    @Override
    public Optional<Marking> marking() {
      String when = pass.map(p -> " " + p.sign()).orElse("");
      return Optional.of(new Marking(Marking.Where.BRACKETED, "tacet", "tacet" + when));
    }

    @Override
    public String says() {
      return "tacet " + Saying.range(first, last) + pass.map(p -> " " + p.says()).orElse("");
    }

    private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
      Matcher m = TACET.matcher(told.words());
      if (!m.matches()) {
        return Optional.empty();
      }
      String said = m.group(1) == null ? m.group(2) : m.group(1);
      if (m.group(1) == null && m.group(3) != null) {
        return Optional.of(heard(told, said, Pass.read(m.group(3))));
      }
      if (ALONE.matcher(said).matches()) {
        return Optional.of(heard(told, "start to end", Pass.read(said)));
      }
      Matcher led = LED.matcher(said);
      if (led.matches()) {
        return Optional.of(heard(told, led.group(2), Pass.read(led.group(1))));
      }
      Pass.Behind behind = Pass.behind(said);
      return Optional.of(heard(told, behind.words(), behind.pass()));
    }

    private static Heard<ShowChange> heard(
        Told<ShowChange> told, String bars, Optional<Pass> pass) {
      return told.range(
          Saying.section(bars),
          r -> new Not(told.meta(), told.number(), r.first(), r.last(), pass),
          " are tacet for you" + pass.map(p -> ", " + p.says()).orElse(""));
    }
  }
}
