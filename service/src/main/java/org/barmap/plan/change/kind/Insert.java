package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonPropertyOrder;
import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;
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
import org.jspecify.annotations.Nullable;

/**
 * New bars after a bar, or before it.
 *
 * @param after address of the bar they come after; empty where {@code before} is said
 * @param before address of the bar they come before
 * @param bars how many
 * @param content "rest" or "music"; empty where nothing is said
 * @param meter theirs, "3/4"; empty for that of the bars around them
 * @param label what the first of them is called, where it has a name; the others go on from it
 */
@JsonTypeName("insert")
@JsonPropertyOrder({"after", "before", "bars", "content", "meter", "label"})
public record Insert(
    Meta meta,
    String number,
    Optional<String> after,
    Optional<String> before,
    int bars,
    Optional<String> content,
    Optional<String> meter,
    Optional<String> label)
    implements ShowChange {
  /** As the schema has it. */
  private static final int MOST_BARS = 500;

  static final Wording<ShowChange> WORDING = new Wording<>("insert|add", Insert::read);
  private static final String REST = "rest";
  private static final String MUSIC = "music";

  private static final Pattern INSERT =
      phrase(
          "(?:insert|add|put\\s+in)\\s+("
              + Numerals.CARDINAL
              + "|an?)\\s+(?:(?:new|more|extra|empty)\\s+)?(\\d{1,2}/\\d{1,2}\\s+)?bars?(\\s+.*?)??"
              + "\\s+(after|before)\\s+(.+?)"
              + "(?:\\s*[,(]?\\s*(?:called|call\\s+(?:them|it)|as|labelled|labeled)\\s+(\\w{1,10})\\)?|\\s*\\((\\w{1,10})\\))?");
  private static final Pattern WHAT =
      phrase(
          "(?:\\s+(?:of|in|with|a|an))*(?:\\s+(\\d{1,2}/\\d{1,2}))?(?:\\s+(?:of|with|a))*"
              + "(?:\\s+(rests?|silence|music|notes|playing))?(?:\\s+(?:in|of)\\s+(\\d{1,2}/\\d{1,2}))?\\s*");

  /** Makes new bars after a bar of which nothing else is said. */
  public Insert(Meta meta, String number, String after, int bars, Optional<String> label) {
    this(
        meta,
        number,
        Optional.of(after),
        Optional.empty(),
        bars,
        Optional.empty(),
        Optional.empty(),
        label);
  }

  private String host() {
    return after.or(() -> before).orElse("");
  }

  private String side() {
    return after.isPresent() ? "after" : "before";
  }

  @Override
  public Optional<Stretch> where() {
    return Optional.of(Stretch.at(host()));
  }

  @Override
  public Effects effects() {
    return Effects.adding(
        new Added(
            bars,
            after.isEmpty(),
            label,
            content.map(c -> c.equals(REST)),
            meter.flatMap(Insert::figures)));
  }

  private static Optional<Meter> figures(String said) {
    int stroke = said.indexOf('/');
    int beats = Integer.parseInt(said.substring(0, stroke));
    int unit = Integer.parseInt(said.substring(stroke + 1));
    boolean written = beats > 0 && beats <= 32 && Integer.bitCount(unit) == 1 && unit <= 32;
    return written ? Optional.of(new Meter(beats, unit, false)) : Optional.empty();
  }

  @Override
  public ShowChange asRest(boolean rest) {
    return new Insert(
        meta, number, after, before, bars, Optional.of(rest ? REST : MUSIC), meter, label);
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at("insert", "+ " + what() + ", see strip"));
  }

  private String what() {
    String name = label.map(l -> " (" + Saying.one(l) + ")").orElse("");
    return Saying.many(bars, "bar") + ofWhat() + name;
  }

  private String ofWhat() {
    String figures = meter.map(m -> " of " + m).orElse("");
    return content
        .map(c -> figures.isEmpty() && c.equals(MUSIC) ? " of music" : figures + " " + c)
        .orElse(figures);
  }

  @Override
  public String says() {
    String name = label.map(l -> " (" + Saying.one(l) + ")").orElse("");
    return "insert "
        + Saying.many(bars, "bar")
        + ofWhat()
        + " "
        + side()
        + " "
        + Saying.one(host())
        + name;
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher m = INSERT.matcher(told.words());
    if (!m.matches()) {
      return Optional.empty();
    }
    Matcher what = WHAT.matcher(m.group(3) == null ? "" : m.group(3));
    if (!what.matches()) {
      return Optional.empty();
    }
    boolean one = m.group(1).toLowerCase(Locale.ROOT).startsWith("a");
    int bars = one ? 1 : Numerals.value(m.group(1)).orElse(0);
    if (bars < 1 || bars > MOST_BARS) {
      return Optional.of(told.asked("How many bars? 1 to " + MOST_BARS + ".", List.of()));
    }
    Optional<String> meter =
        said(m.group(2)).or(() -> said(what.group(1))).or(() -> said(what.group(3)));
    if (meter.isPresent() && meter.flatMap(Insert::figures).isEmpty()) {
      return Optional.of(told.asked(meter.get() + " is no meter.", List.of()));
    }
    Optional<String> content =
        said(what.group(2)).map(c -> c.matches("(?i)rests?|silence") ? REST : MUSIC);
    Optional<String> where = Optional.of(m.group(5).strip());
    boolean behind = m.group(4).equalsIgnoreCase("after");
    Insert change =
        new Insert(
            told.meta(),
            told.number(),
            behind ? where : Optional.empty(),
            behind ? Optional.empty() : where,
            bars,
            content,
            meter,
            said(m.group(6)).or(() -> said(m.group(7))));
    return Optional.of(told.at(where.get(), change, change::understood));
  }

  private static Optional<String> said(@Nullable String group) {
    return Optional.ofNullable(group).map(String::strip).filter(g -> !g.isEmpty());
  }

  private String understood(String name) {
    return bars
        + (bars == 1 ? " new bar" : " new bars")
        + ofWhat()
        + " "
        + side()
        + " bar "
        + name
        + label.map(l -> ", called " + l).orElse("");
  }
}
