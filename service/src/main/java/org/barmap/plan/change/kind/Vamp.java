package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Locale;
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
import org.barmap.plan.change.term.Leave;

/** Bars repeated until the cue. */
@JsonTypeName("vamp")
public record Vamp(Meta meta, String number, String first, String last, Leave leave)
    implements ShowChange.OfBars {
  static final Wording<ShowChange> WORDING = new Wording<>("vamp", Vamp::read);

  private static final Pattern VAMP =
      Pattern.compile(
          "vamp\\s+(.+?)(?:\\s*[,(]?\\s*(?:out|leave|left|exit)\\s+(?:it\\s+)?(.+?)\\)?|\\s*,?\\s*(?:until|till|til)\\s+(?:the\\s+)?cue)?",
          Wording.FLAGS);

  @Override
  public Effects effects() {
    return Effects.going(Rounds.vamp(leave));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(new Marking(Marking.Where.AROUND, "vamp", "VAMP, " + out()));
  }

  @Override
  public String says() {
    return "vamp " + Saying.range(first, last) + ", " + out();
  }

  private String out() {
    return leave == Leave.ANY_TIME ? "out any time" : "out at the end of a pass";
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = VAMP.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    String out = m.group(2) == null ? "" : m.group(2).toLowerCase(Locale.ROOT);
    boolean any = out.contains("any");
    String how =
        out.isEmpty()
            ? "left at the end of a pass (nothing else was said)"
            : any ? "left at any time" : "left at the end of a pass";
    Leave leave = any ? Leave.ANY_TIME : Leave.END_OF_PASS;
    return Optional.of(
        told.range(
            m.group(1),
            r -> new Vamp(told.meta(), told.number(), r.first(), r.last(), leave),
            " are a vamp, " + how));
  }
}
