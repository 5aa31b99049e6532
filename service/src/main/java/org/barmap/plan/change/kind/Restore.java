package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import org.barmap.plan.change.effect.Course;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/**
 * What earlier changes left out is in again; or one earlier change of any kind, named by {@code
 * replaces}, is taken back, and nothing else.
 *
 * @param first the first bar; empty where the whole number is in again
 * @param last the last bar
 * @param text what is taken back, as a cut list says it; empty where bars are in again
 */
@JsonTypeName("restore")
public record Restore(
    Meta meta, String number, Optional<String> first, Optional<String> last, Optional<String> text)
    implements ShowChange {
  static final Wording<ShowChange> WORDING =
      Wording.of(
          "restore|open\\s+up",
          "(?:(?:put\\s+)?(.+?)\\s+)?(?:is\\s+|are\\s+|goes\\s+|go\\s+|comes\\s+|come\\s+)?(?:back\\s+in|in\\s+again|restored)|"
              + "(?:restore|open\\s+up)(?:\\s+(?:the\\s+cut\\s+(?:at|in|of)\\s+)?(.+))?",
          Restore::read);

  private Restore(Meta meta, String number, Optional<String> first, Optional<String> last) {
    this(meta, number, first, last, Optional.empty());
  }

  /** Returns what takes an earlier change back. */
  static Restore takingBack(Meta meta, ShowChange earlier) {
    return new Restore(
        meta.instead(earlier.meta().id()),
        earlier.number(),
        earlier.where().map(Stretch::first),
        earlier.where().map(Stretch::last),
        Optional.of(Saying.one(earlier.says())));
  }

  @Override
  public boolean takesBack() {
    return text.isPresent();
  }

  @Override
  public Optional<Stretch> where() {
    return first.map(f -> new Stretch(f, last.orElse(f)));
  }

  @Override
  public Effects effects() {
    return takesBack() ? Effects.NONE : Effects.on(Course.RESTORING);
  }

  /** The marks of what was out are not written, or rubbed out. */
  @Override
  public Optional<Marking> marking() {
    return Optional.empty();
  }

  @Override
  public String says() {
    return text.map(t -> "taken back: " + t)
        .orElseGet(
            () -> first.map(f -> Saying.range(f, last.orElse(f)) + " ").orElse("") + "back in");
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told, Matcher m) {
    if (m.group(1) != null && m.group(1).matches("(?i)(?:the|that|our)\\s+cut")) {
      Restore all =
          new Restore(told.meta(), told.number(), Optional.of("start"), Optional.of("end"));
      return Optional.of(
          told.choose(
              "Are the bars played again, or left out again?",
              List.of(
                  new Heard.Reading<>("all that was cut is played again", List.of(all)),
                  Heard.Reading.wanting("left out again: say \"cut 34 to 49\""))));
    }
    String bars = m.group(1) == null ? m.group(2) : m.group(1);
    if (bars == null || bars.matches("(?i)(?:(?:the|whole|number|all|it)\\s*)+")) {
      Restore whole = new Restore(told.meta(), told.number(), Optional.empty(), Optional.empty());
      return Optional.of(told.understood(whole, "the number is in again"));
    }
    return Optional.of(
        told.range(
            bars,
            r ->
                new Restore(
                    told.meta(), told.number(), Optional.of(r.first()), Optional.of(r.last())),
            " are in again"));
  }
}
