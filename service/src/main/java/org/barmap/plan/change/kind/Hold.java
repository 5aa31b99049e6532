package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Navigation;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Put;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Pass;

/** A place where the show waits, nobody knows how long. */
public sealed interface Hold extends ShowChange permits Hold.Held, Hold.Pause {

  /** Returns the bar that is held, or that is silent for everybody. */
  Optional<String> first();

  /** Returns the bar after which one waits, where no bar is held. */
  Optional<String> after();

  /** Returns what ends it. */
  Optional<String> cue();

  /** Returns in which pass one waits; empty for every one. */
  Optional<Pass> pass();

  @Override
  default Optional<Stretch> where() {
    return first().or(this::after).map(Stretch::at);
  }

  /** Returns where and until when, as it is said. */
  private String place() {
    String at =
        first()
            .map(f -> "at " + Saying.one(f))
            .orElseGet(() -> "after " + Saying.one(after().orElse("")));
    return at + until();
  }

  private String until() {
    return pass().map(p -> " " + p.says()).orElse("")
        + cue().map(c -> " till " + Saying.one(c)).orElse("");
  }

  /** The note or rest is held. */
  @JsonTypeName("hold")
  record Held(
      Meta meta,
      String number,
      Optional<String> first,
      Optional<String> after,
      Optional<String> cue,
      Optional<Pass> pass)
      implements Hold {
    static final Wording<ShowChange> WORDING =
        inPass(
            "hold|fermata",
            "(?:hold|fermata)(?!\\s+back\\b)\\s+(?:(?:on|at|in|over)\\s+|(after)\\s+)?(.+?)"
                + "(?:\\s*,?\\s+(?:till|until|til)\\s+(.+))?",
            Held::read);

    @Override
    public Effects effects() {
      return Effects.on(Course.putting(Put.sign(Navigation.FERMATA), pass, false));
    }

    @Override
    public Optional<Marking> marking() {
      return Optional.of(Marking.at("hold", "HOLD" + ((Hold) this).until()));
    }

    @Override
    public String says() {
      return "hold " + ((Hold) this).place();
    }

    private static Optional<Heard<ShowChange>> read(
        Told<ShowChange> told, Matcher m, Optional<Pass> pass) {
      Optional<String> bar = Optional.of(m.group(2).strip());
      Optional<String> cue = cueOf(m.group(3));
      boolean after = m.group(1) != null;
      Optional<String> none = Optional.empty();
      return Optional.of(
          told.at(
              m.group(2),
              new Held(
                  told.meta(), told.number(), after ? none : bar, after ? bar : none, cue, pass),
              name ->
                  "hold "
                      + (after ? "after" : "in")
                      + " bar "
                      + name
                      + pass.map(p -> ", " + p.says() + " only").orElse("")
                      + cue.map(c -> " until " + c).orElse("")));
    }
  }

  /** Everybody stops: a general pause, a dead stop, a caesura. */
  @JsonTypeName("gp")
  record Pause(
      Meta meta,
      String number,
      Optional<String> first,
      Optional<String> after,
      Optional<String> cue,
      Optional<Pass> pass)
      implements Hold {
    static final Wording<ShowChange> WORDING =
        inPass(
            "g\\.?p|general\\s+pause|grand\\s+pause|dead\\s+stop|caesura",
            "(g\\.?\\s*p\\.?|general\\s+pause|grand\\s+pause|dead\\s+stop|caesura)\\s+"
                + "(?:(on|at|in|after)\\s+)?(.+?)(?:\\s*,?\\s+(?:till|until|til)\\s+(.+))?",
            Pause::read);

    @Override
    public Effects effects() {
      return Effects.on(
          first.isPresent()
              ? Course.putting(Put.word("G.P."), pass, true)
              : Course.putting(Put.sign(Navigation.CAESURA), pass, false));
    }

    @Override
    public Optional<Marking> marking() {
      String where = first.isPresent() ? "" : " //";
      return Optional.of(Marking.at("hold", "G.P." + where + ((Hold) this).until()));
    }

    @Override
    public String says() {
      return "G.P. " + ((Hold) this).place();
    }

    private static Optional<Heard<ShowChange>> read(
        Told<ShowChange> told, Matcher m, Optional<Pass> pass) {
      String bar = m.group(3).strip();
      boolean after = "after".equalsIgnoreCase(m.group(2));
      boolean general = m.group(1).toLowerCase(Locale.ROOT).startsWith("g");
      if (!after && !general) {
        return Optional.of(
            told.asked(
                "Is bar " + bar + " played before everything stops?",
                List.of("G.P. after " + bar, "G.P. at " + bar)));
      }
      Optional<String> none = Optional.empty();
      Optional<String> cue = cueOf(m.group(4));
      return Optional.of(
          told.at(
              bar,
              new Pause(
                  told.meta(),
                  told.number(),
                  after ? none : Optional.of(bar),
                  after ? Optional.of(bar) : none,
                  cue,
                  pass),
              name ->
                  (after ? "everybody stops after bar " : "everybody is silent in bar ")
                      + name
                      + pass.map(p -> ", " + p.says() + " only").orElse("")
                      + cue.map(c -> " until " + c).orElse("")));
    }
  }

  /** Reads what is said of one pass, too. */
  @FunctionalInterface
  interface Reader {
    /** Returns what was heard. */
    Optional<Heard<ShowChange>> read(Told<ShowChange> told, Matcher m, Optional<Pass> pass);
  }

  private static Wording<ShowChange> inPass(String verbs, String pattern, Reader reader) {
    Pattern compiled = phrase(pattern);
    return new Wording<>(
        verbs,
        told -> {
          Pass.Behind behind = Pass.off(told.words());
          Matcher m = compiled.matcher(behind.words());
          return m.matches() ? reader.read(told, m, behind.pass()) : Optional.empty();
        });
  }

  private static Optional<String> cueOf(String said) {
    return Optional.ofNullable(said)
        .map(String::strip)
        .filter(s -> !s.isEmpty() && !s.matches("(?i)(?:the\\s+)?cue(?:d)?"));
  }
}
