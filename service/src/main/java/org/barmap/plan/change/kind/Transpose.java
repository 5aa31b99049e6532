package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
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
import org.barmap.plan.change.term.Transposed;

/**
 * The number, or bars of it, higher or lower than printed. Keys that a change asks for are said as
 * they sound then, so they stay.
 *
 * @param semitones up; down where negative
 * @param first the first bar; empty for the whole number
 * @param last the last bar; empty to the end
 */
@JsonTypeName("transpose")
public record Transpose(
    Meta meta, String number, int semitones, Optional<String> first, Optional<String> last)
    implements ShowChange {
  static final Wording<ShowChange> WORDING =
      Wording.of(
          "transpose",
          "(?:(?:is|goes|transposed?|all|(?:the\\s+)?whole\\s+number)\\s+)*(up|down)\\s+(.+?)"
              + "(?:\\s+(?:from|for|in)\\s+(.+))?",
          Transpose::read);

  @Override
  public Optional<Stretch> where() {
    return Optional.of(new Stretch(first.orElse("start"), last.orElse("end")));
  }

  @Override
  public Effects effects() {
    return Effects.on(Course.putting(Put.semitones(semitones)));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(
        Marking.at("transpose", Transposed.says(semitones).toUpperCase(java.util.Locale.ROOT)));
  }

  @Override
  public String says() {
    String bars = first.map(f -> " from " + Saying.range(f, last.orElse("end"))).orElse("");
    return Transposed.says(semitones) + bars;
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told, Matcher m) {
    OptionalInt size = Transposed.semitones(m.group(2));
    if (size.isEmpty()) {
      return Optional.empty();
    }
    int by = m.group(1).equalsIgnoreCase("up") ? size.getAsInt() : -size.getAsInt();
    String says = Transposed.says(by);
    if (m.group(3) == null) {
      Transpose whole =
          new Transpose(told.meta(), told.number(), by, Optional.empty(), Optional.empty());
      return Optional.of(told.understood(whole, "everything " + says));
    }
    boolean open = !m.group(3).matches("(?i).*(?:\\s(?:to|through|until|till)\\s|[-\\u2013]).*");
    return Optional.of(
        told.range(
            open ? m.group(3) + " to end" : m.group(3),
            r ->
                new Transpose(
                    told.meta(), told.number(), by, Optional.of(r.first()), Optional.of(r.last())),
            " are " + says));
  }
}
