package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Leaving;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Rounds;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Leave;
import org.barmap.plan.change.term.Pass;

/**
 * Bars repeated until the cue.
 *
 * @param cue what it goes on till, as it was said: "the cart stops"; empty for the director's cue
 * @param exitBar the bar behind which it is left the last time round, where that isn't its last one
 * @param exitBeat the beat of that bar on which it is left
 * @param pass in which pass of a repeat around them; empty for every one
 */
@JsonTypeName("vamp")
public record Vamp(
    Meta meta,
    String number,
    String first,
    String last,
    Leave leave,
    Optional<String> cue,
    Optional<String> exitBar,
    Optional<Double> exitBeat,
    Optional<Pass> pass)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING = new Wording<>("vamp", Vamp::said);
  private static final Pattern SAID =
      phrase(
          "vamp\\s+(.+?)(?:\\s*,?\\s*(?:until|till|'?til)\\s+(.+?))?"
              + "(?:(?:\\s*[,(]\\s*|\\s+)(?:go\\s+)?(?:out|leave|left|exit)\\s+(?:it\\s+)?([^,(]+?)\\)?)?");
  private static final Pattern CUE = phrase("(?:the\\s+)?cued?");
  private static final Pattern BAR =
      Pattern.compile(
          "(?:(?i:bar)\\s+)?(?:\\d{1,4}[a-zA-Z]?|[A-Z]|(?i:the\\s+end|end))(?:\\s*\\+\\s*\\d{1,3})?");
  private static final Pattern ANY = phrase("(?:at\\s+)?any\\b.*");
  private static final Pattern PASS =
      phrase("(?:at\\s+|after\\s+)?(?:the\\s+)?(?:end\\b.*|last\\s+time\\b.*)");
  private static final Pattern AFTER =
      phrase("after\\s+(?:the\\s+)?(?:end\\s+of\\s+)?(?:bar\\s+)?(.+)");
  private static final Pattern BEAT =
      phrase(
          "(?:on\\s+|at\\s+)?(?:the\\s+)?beat\\s+(\\d{1,2})(?:\\s+(?:of|in)\\s+(?:bar\\s+)?(.+))?");
  private static final String[] OUT = {"out any time", "out at the end of a pass"};

  /** Makes a vamp that is left in no other way than at any time or at the end of a pass. */
  public Vamp(Meta meta, String number, String first, String last, Leave leave) {
    this(
        meta,
        number,
        first,
        last,
        leave,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  private Leaving leaving() {
    return new Leaving(Optional.of(leave), cue, exitBar, exitBeat);
  }

  @Override
  public Effects effects() {
    return Effects.going(Rounds.vamp(leaving(), pass));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(
        new Marking(
            Marking.Where.AROUND,
            "vamp",
            "VAMP" + pass.map(p -> " " + p.sign()).orElse("") + out()));
  }

  @Override
  public String says() {
    return "vamp "
        + Saying.range(first, last)
        + pass.map(p -> " " + p.says()).orElse("")
        + cue.map(c -> " till " + Saying.one(c)).orElse("")
        + out();
  }

  private String out() {
    return leaving().out().map(o -> ", " + Saying.one(o)).orElse("");
  }

  private static Optional<Heard<ShowChange>> said(Told<ShowChange> told) {
    Pass.Behind behind = Pass.off(told.words());
    Matcher m = SAID.matcher(behind.words());
    return m.matches() ? read(told, m, behind.pass()) : Optional.empty();
  }

  private static Optional<Heard<ShowChange>> read(
      Told<ShowChange> told, Matcher m, Optional<Pass> pass) {
    String bars = m.group(1);
    Optional<String> cue = Optional.ofNullable(m.group(2)).map(String::strip);
    if (cue.filter(c -> BAR.matcher(c).matches()).isPresent()) {
      bars = bars + " to " + cue.get(); // "vamp 10 till 12" names bars
      cue = Optional.empty();
    }
    cue = cue.filter(c -> !CUE.matcher(c).matches());
    String out = m.group(3) == null ? "" : m.group(3).strip();
    return Optional.of(read(told, bars, new Till(cue, pass), out));
  }

  /** Until when, and in which pass. */
  private record Till(Optional<String> cue, Optional<Pass> pass) {
    /** Returns it as it may be said again. */
    String words() {
      return pass.map(p -> " " + p.says()).orElse("") + cue.map(c -> " till " + c).orElse("");
    }

    /** Returns it as it is read back. */
    String says() {
      String only = pass.map(p -> ", " + p.says() + " only").orElse("");
      return only + cue.map(c -> (only.isEmpty() ? " till " : ", till ") + c).orElse("");
    }
  }

  private static Heard<ShowChange> read(Told<ShowChange> told, String bars, Till cue, String out) {
    String till = cue.says();
    Matcher after = AFTER.matcher(out);
    Matcher beat = BEAT.matcher(out);
    if (out.isEmpty()) {
      return plain(
          told,
          bars,
          cue,
          Leave.END_OF_PASS,
          till + ", left at the end of a pass (nothing else was said)");
    }
    if (ANY.matcher(out).matches()) {
      return plain(told, bars, cue, Leave.ANY_TIME, till + ", left at any time");
    }
    if (PASS.matcher(out).matches()) {
      return plain(told, bars, cue, Leave.END_OF_PASS, till + ", left at the end of a pass");
    }
    boolean onBeat = beat.matches();
    if (onBeat && beat.group(2) == null) {
      return told.asked(
          "On beat " + beat.group(1) + " of which bar?",
          List.of(
              "vamp "
                  + bars
                  + cue.words()
                  + ", out on beat "
                  + beat.group(1)
                  + " of "
                  + lastOf(bars)));
    }
    if (!onBeat && !after.matches()) {
      return told.asked(
          "How is the vamp left?",
          java.util.Arrays.stream(OUT).map(o -> "vamp " + bars + cue.words() + ", " + o).toList());
    }
    String bar = (onBeat ? beat.group(2) : after.group(1)).strip();
    Optional<Double> at = onBeat ? Optional.of(Double.valueOf(beat.group(1))) : Optional.empty();
    Heard<ShowChange> known =
        told.at(bar, new Vamp(told.meta(), told.number(), bar, bar, Leave.END_OF_PASS), b -> b);
    if (known instanceof Heard.AskedBack<ShowChange>) {
      return known;
    }
    String says = onBeat ? "on beat " + beat.group(1) + " of bar " + bar : "after bar " + bar;
    return told.range(
        bars,
        r ->
            of(
                told,
                r,
                new Leaving(Optional.of(Leave.END_OF_PASS), cue.cue(), Optional.of(bar), at),
                cue.pass()),
        " are a vamp" + till + ", left " + says);
  }

  private static ShowChange of(
      Told<ShowChange> told, Stretch bars, Leaving left, Optional<Pass> pass) {
    return new Vamp(
        told.meta(),
        told.number(),
        bars.first(),
        bars.last(),
        left.leave().orElse(Leave.END_OF_PASS),
        left.cue(),
        left.exitBar(),
        left.exitBeat(),
        pass);
  }

  private static String lastOf(String bars) {
    return bars.replaceFirst("(?s)^.*(?:\\bto\\s+|[-\u2013]\\s*)", "").strip();
  }

  private static Heard<ShowChange> plain(
      Told<ShowChange> told, String bars, Till cue, Leave leave, String says) {
    return told.range(
        bars,
        r ->
            of(
                told,
                r,
                new Leaving(Optional.of(leave), cue.cue(), Optional.empty(), Optional.empty()),
                cue.pass()),
        " are a vamp" + says);
  }
}
