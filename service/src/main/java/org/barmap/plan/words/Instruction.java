package org.barmap.plan.words;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Meter;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;

/**
 * One instruction for one number.
 *
 * @param within the number
 * @param words the instruction, without the number's name
 * @param meta what the change gets
 */
record Instruction(WrittenNumber within, String words, Meta meta) implements Told<ShowChange> {
  private static final List<Wording<ShowChange>> WORDINGS = ShowChange.wordings();
  private static final Pattern NOTED =
      Pattern.compile(
          "(.+?)\\s*\\(([^()]{1,300})\\)", Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE);

  /** Reads it; a remark in brackets behind it is a note. */
  Heard<ShowChange> read() {
    Optional<Showings> showings = Showings.off(words, meta);
    if (showings.isPresent()) {
      Heard<ShowChange> held =
          new Instruction(within, showings.get().words(), showings.get().meta()).read();
      if (held instanceof Heard.Understood) {
        return held;
      }
    }
    Heard<ShowChange> heard = whole();
    Matcher noted = NOTED.matcher(words);
    if (heard instanceof Heard.Understood || !noted.matches()) {
      return heard;
    }
    Meta withNote = meta.noted(Optional.of(noted.group(2)));
    Heard<ShowChange> without = new Instruction(within, noted.group(1), withNote).whole();
    return without instanceof Heard.Understood ? without : heard;
  }

  private Heard<ShowChange> whole() {
    return WORDINGS.stream()
        .map(w -> w.reader().apply(this))
        .flatMap(Optional::stream)
        .findFirst()
        .orElseGet(
            () ->
                asked(
                    "This was not understood.",
                    List.of(
                        "cut 34 to 49",
                        "vamp B to B + 1",
                        "play 10 to 13 three times",
                        "in two from 20 to 40")));
  }

  @Override
  public String number() {
    return within.label();
  }

  @Override
  public Optional<Meter> meterAt(String bar) {
    return new Addresses(within).find(bar) instanceof Found.At at
        ? within.barAt(at.place().slot()).meter()
        : Optional.empty();
  }

  @Override
  public Heard<ShowChange> range(String said, Function<Stretch, ShowChange> make, String says) {
    Range range = Range.read(within, said);
    if (range.first().isEmpty()) {
      return asked(range.text(), range.candidates());
    }
    boolean single = range.text().startsWith("bar ");
    Stretch stretch = new Stretch(range.first().get(), range.last());
    return understood(
        make.apply(stretch), range.text() + (single ? says.replaceFirst("^ are ", " is ") : says));
  }

  @Override
  public Heard<ShowChange> at(String where, ShowChange change, Function<String, String> says) {
    Found found = new Addresses(within).find(where);
    if (found instanceof Found.At at) {
      return understood(change, says.apply(within.nameAt(at.place().slot())));
    }
    Found.Refused refused = (Found.Refused) found;
    return asked(refused.text(), refused.candidates());
  }

  @Override
  public Heard<ShowChange> understood(ShowChange change, String says) {
    String start = start();
    String sentence =
        start.isEmpty()
            ? says.substring(0, 1).toUpperCase(Locale.ROOT) + says.substring(1)
            : start + says;
    return new Heard.Understood<>(words, change, sentence + ".");
  }

  @Override
  public Heard<ShowChange> asked(String question, List<String> candidates) {
    return new Heard.AskedBack<>(words, start() + question, candidates);
  }

  private String start() {
    return within.label().isEmpty() ? "" : within.spoken() + ": ";
  }
}
