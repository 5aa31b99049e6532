package org.barmap.plan.words;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.map.Key;
import org.barmap.plan.change.Meta;
import org.barmap.plan.change.Numerals;
import org.barmap.plan.change.ShowChange;
import org.barmap.plan.change.WrittenNumber;

/**
 * Reads another key, said in sharps and flats: "3 flats from C", "key at C: 2 sharps". A key said
 * by its name is asked back: a transposing part has other sharps and flats than the name says.
 */
final class KeyReader extends Reader {
  private static final String COUNT =
      "((?:"
          + Numerals.CARDINAL
          + "|no)\\s+(?:sharps?|flats?)(?:\\s+(?:or|and)\\s+(?:sharps|flats))?)";
  private static final String NEW = "(?:(?:the\\s+)?(?:new\\s+)?key(?:\\s+(?:change|signature))?)";
  private static final Pattern FROM =
      Pattern.compile(
          "(?:"
              + NEW
              + "\\s*(?:of|is|:|to)?\\s+|(?:in)?to\\s+)?"
              + COUNT
              + "\\s+(?:from|at|in)\\s+(.+)",
          FLAGS);
  private static final Pattern AT =
      Pattern.compile(
          NEW + "\\s+(?:at|from)\\s+(.+?)\\s*(?:[:,]|\\bto\\b|\\bof\\b|\\bis\\b)?\\s+" + COUNT,
          FLAGS);
  private static final Pattern NAMED =
      Pattern.compile(NEW + "\\b.*\\b(?:from|at)\\s+(\\S.*)|" + NEW + "\\b.*", FLAGS);

  KeyReader(WrittenNumber number, String words, Meta meta) {
    super(number, words, meta);
  }

  /** Returns what was heard, empty when it is about something else. */
  Optional<Heard> read() {
    Matcher from = FROM.matcher(words);
    if (from.matches()) {
      return Optional.of(key(from.group(1), from.group(2)));
    }
    Matcher at = AT.matcher(words);
    if (at.matches()) {
      return Optional.of(key(at.group(2), at.group(1)));
    }
    Matcher named = NAMED.matcher(words);
    if (!named.matches()) {
      return Optional.empty();
    }
    return Optional.of(
        asked(
            "How many sharps or flats does your part get, and from where?",
            List.of("3 flats from C", "2 sharps from 34", "no sharps or flats from B")));
  }

  private Heard key(String said, String where) {
    String words = said.toLowerCase(Locale.ROOT);
    OptionalInt many =
        words.startsWith("no ") ? OptionalInt.of(0) : Numerals.value(words.split("\\s+", 2)[0]);
    if (many.isEmpty() || many.getAsInt() > Key.MOST) {
      return asked("A key has 0 to 7 sharps, or 1 to 7 flats.", List.of());
    }
    int fifths = words.contains("sharp") ? many.getAsInt() : -many.getAsInt();
    return at(
        where.strip(),
        name -> new ShowChange.KeyChange(meta, number.label(), where.strip(), fifths),
        name -> new Key(fifths, true).says() + " from bar " + name);
  }
}
