package org.barmap.plan.change.kind;

import static org.barmap.plan.change.term.Phrase.phrase;

import com.fasterxml.jackson.annotation.JsonTypeName;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Key;
import org.barmap.plan.change.effect.Effects;
import org.barmap.plan.change.effect.InForce;
import org.barmap.plan.change.effect.Marking;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Saying;
import org.barmap.plan.change.say.Told;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Numerals;

/**
 * A key from a bar on, until the next signature in the book.
 *
 * @param fifths sharps counted up, flats counted down, -7 to 7
 */
@JsonTypeName("key")
public record KeyChange(Meta meta, String number, String first, int fifths)
    implements ShowChange.FromBar {
  /**
   * Reads another key, said in sharps and flats: "3 flats from C", "key at C: 2 sharps". A key said
   * by its name is asked back: a transposing part has other sharps and flats than the name says.
   */
  static final Wording<ShowChange> WORDING = new Wording<>("", KeyChange::read);

  private static final String COUNT =
      "((?:"
          + Numerals.CARDINAL
          + "|no)\\s+(?:sharps?|flats?)(?:\\s+(?:or|and)\\s+(?:sharps|flats))?)";
  private static final String NEW = "(?:(?:the\\s+)?(?:new\\s+)?key(?:\\s+(?:change|signature))?)";
  private static final Pattern FROM =
      phrase(
          "(?:"
              + NEW
              + "\\s*(?:of|is|:|to)?\\s+|(?:in)?to\\s+)?"
              + COUNT
              + "\\s+(?:from|at|in)\\s+(.+)");
  private static final Pattern AT =
      phrase(NEW + "\\s+(?:at|from)\\s+(.+?)\\s*(?:[:,]|\\bto\\b|\\bof\\b|\\bis\\b)?\\s+" + COUNT);
  private static final Pattern NAMED =
      phrase(NEW + "\\b.*\\b(?:from|at)\\s+(\\S.*)|" + NEW + "\\b.*");

  @Override
  public Effects effects() {
    return Effects.setting(InForce.key(fifths));
  }

  @Override
  public Optional<Marking> marking() {
    return Optional.of(Marking.at("key", new Key(fifths, true).says()));
  }

  @Override
  public String says() {
    return new Key(fifths, true).says() + " from " + Saying.one(first);
  }

  private static Optional<Heard<ShowChange>> read(Told<ShowChange> told) {
    Matcher from = FROM.matcher(told.words());
    if (from.matches()) {
      return Optional.of(key(told, from.group(1), from.group(2)));
    }
    Matcher at = AT.matcher(told.words());
    if (at.matches()) {
      return Optional.of(key(told, at.group(2), at.group(1)));
    }
    if (!NAMED.matcher(told.words()).matches()) {
      return Optional.empty();
    }
    return Optional.of(
        told.asked(
            "How many sharps or flats does your part get, and from where?",
            List.of("3 flats from C", "2 sharps from 34", "no sharps or flats from B")));
  }

  private static Heard<ShowChange> key(Told<ShowChange> told, String said, String where) {
    String words = said.toLowerCase(Locale.ROOT);
    OptionalInt many =
        words.startsWith("no ") ? OptionalInt.of(0) : Numerals.value(words.split("\\s+", 2)[0]);
    if (many.isEmpty() || many.getAsInt() > Key.MOST) {
      return told.asked("A key has 0 to 7 sharps, or 1 to 7 flats.", List.of());
    }
    int fifths = words.contains("sharp") ? many.getAsInt() : -many.getAsInt();
    return told.at(
        where.strip(),
        new KeyChange(told.meta(), told.number(), where.strip(), fifths),
        name -> new Key(fifths, true).says() + " from bar " + name);
  }
}
