package org.barmap.plan.change.kind;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.effect.Added;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Numerals;

/** New bars after a bar; {@code label} names the first of them, where it has a name. */
@JsonTypeName("insert")
public record Insert(Meta meta, String number, String after, int bars, Optional<String> label)
    implements ShowChange {
  /** As the schema has it. */
  private static final int MOST_BARS = 500;

  static final Wording<ShowChange> WORDING = new Wording<>("insert|add", Insert::read);

  private static final Pattern INSERT =
      Pattern.compile(
          "(?:insert|add)\\s+("
              + Numerals.CARDINAL
              + "|a)\\s+(?:new\\s+)?bars?\\s+after\\s+(.+?)(?:\\s*[,(]?\\s*(?:called|as|labelled|labeled)\\s+(\\w{1,10})\\)?|\\s*\\((\\w{1,10})\\))?",
          Wording.FLAGS);

  @Override
  public Optional<Stretch> where() {
    return Optional.of(Stretch.at(after));
  }

  @Override
  public Effects effects() {
    return Effects.adding(new Added(bars, label.orElse("after " + after)));
  }

  @Override
  public Optional<Marking> marking() {
    String name = label.map(l -> " (" + l + ")").orElse("");
    return Optional.of(Marking.at("insert", "+ " + Saying.bars(bars) + name + ", see paste-in"));
  }

  @Override
  public String says() {
    String name = label.map(l -> " (" + Saying.one(l) + ")").orElse("");
    return "insert " + Saying.bars(bars) + " after " + Saying.one(after) + name;
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = INSERT.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    int bars = m.group(1).equalsIgnoreCase("a") ? 1 : Numerals.value(m.group(1)).orElse(0);
    if (bars < 1 || bars > MOST_BARS) {
      return Optional.of(told.asked("How many bars? 1 to " + MOST_BARS + ".", List.of()));
    }
    Optional<String> label =
        Optional.ofNullable(m.group(3)).or(() -> Optional.ofNullable(m.group(4)));
    String after = m.group(2);
    return Optional.of(
        told.at(
            after,
            new Insert(told.meta(), told.number(), after.strip(), bars, label),
            name ->
                bars
                    + (bars == 1 ? " new bar" : " new bars")
                    + " after bar "
                    + name
                    + label.map(l -> ", called " + l).orElse("")));
  }
}
