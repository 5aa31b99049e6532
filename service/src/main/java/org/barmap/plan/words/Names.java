package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;

/**
 * Finds the number that a line is about: "No. 7: cut 34 to 49", "in 7 cut 34-49", "cut 34-49 in 7",
 * "Low Tide: cut 34 to 49", "lay out in No. 7".
 */
final class Names {
  private static final String NO = "(?:(?:no|nr|num)\\b\\.?|number|#|\\u2116)\\s*";
  private static final String LABEL = "(\\d{1,4}[A-Za-z]{0,3}|[A-Za-z]{1,3}\\d{0,3})";
  private static final Pattern NUMBER =
      phrase("(?:in\\s+|for\\s+|on\\s+)?" + NO + LABEL + "\\b\\s*(.*)");
  private static final Pattern BARE = phrase("(\\d{1,4}[A-Za-z]{0,2})\\s*[.:)]\\s+(.*)");
  private static final Pattern IN = phrase("(?:in|for)\\s+(\\d{1,4}[A-Za-z]{0,2})\\b[,:]?\\s+(.*)");
  private static final Pattern VERB_FIRST =
      phrase(
          "(cut|omit|skip|drop|lose|tacet|play|(?:lay|sit)\\s+out(?:\\s+(?:in|of|for))?|don't\\s+play(?:\\s+in)?)\\s+(?="
              + NO
              + "\\w)");
  private static final Pattern AT_END =
      phrase("(.*\\S)\\s+(?:in|of)\\s+" + NO + LABEL + "\\b[.!]?");
  private static final Pattern BARE_AT_END =
      phrase(
          "((?:cut|omit|skip|drop|lose|vamp|safety|insert|add|repeat|watch|hold|scratch|restore|reinstate|ignore|undo|forget|open|no)\\b.*\\S"
              + "|.*\\s(?:back\\s+in|out|tacet))\\s+in\\s+(\\d{1,4}[A-Za-z]{0,2})[.!]?");

  private final List<WrittenNumber> numbers;
  private final Map<String, Optional<WrittenNumber>> byLabel = new HashMap<>();
  private final Map<String, Optional<WrittenNumber>> byTitle = new HashMap<>();

  Names(List<WrittenNumber> numbers) {
    this.numbers = numbers;
    for (WrittenNumber number : numbers) {
      put(byLabel, number.label().strip(), number);
      if (number.title().strip().length() > 2) {
        put(byTitle, Spoken.plain(number.title()), number);
      }
    }
  }

  private static void put(
      Map<String, Optional<WrittenNumber>> into, String key, WrittenNumber number) {
    into.merge(key.toLowerCase(Locale.ROOT), Optional.of(number), (a, b) -> Optional.empty());
  }

  /**
   * A line taken apart.
   *
   * @param number the number it names
   * @param unknown the label it names, where there is no such number
   * @param rest what is said about the number
   */
  record Named(Optional<WrittenNumber> number, Optional<String> unknown, String rest) {}

  Named read(String line) {
    String text = line.replaceFirst("(?i)^((?:in |for )?(?:number|no\\.?)) (?=[a-z-]{3,})", "$1 ");
    String figures = Spoken.figures(text);
    if (!figures.equals(text) && NUMBER.matcher(figures).matches()) {
      Matcher spoken = NUMBER.matcher(figures);
      if (!NUMBER.matcher(text).matches() && spoken.matches()) {
        text = figures;
      }
    }
    Matcher verbFirst = VERB_FIRST.matcher(text);
    String verb = "";
    if (verbFirst.lookingAt()) {
      verb = verbFirst.group(1).toLowerCase(Locale.ROOT);
      verb = verb.matches("(?:lay|sit|don't).*") ? "tacet" : verb;
      text = text.substring(verbFirst.end());
    }
    Named named = leading(text);
    if (!verb.isEmpty()) {
      String rest = named.rest().isEmpty() ? verb : verb + " " + named.rest();
      return new Named(named.number(), named.unknown(), rest);
    }
    return named.number().isEmpty() && named.unknown().isEmpty() ? trailing(text) : named;
  }

  private Named leading(String text) {
    Matcher named = NUMBER.matcher(text);
    Matcher bare = BARE.matcher(text);
    if (named.matches() || bare.matches()) {
      Matcher match = named.matches() ? named : bare;
      Optional<WrittenNumber> found = byLabel(match.group(1));
      if (found.isEmpty() && !named.matches() && text.startsWith(":", bare.end(1))) {
        return new Named(found, Optional.empty(), text); // "34: watch" is about a bar
      }
      return found.isEmpty()
          ? new Named(found, Optional.of(match.group(1)), match.group(2))
          : new Named(found, Optional.empty(), dropTitle(match.group(2), found.get()));
    }
    Matcher in = IN.matcher(text);
    if (in.matches() && byLabel(in.group(1)).isPresent()) {
      return new Named(byLabel(in.group(1)), Optional.empty(), in.group(2));
    }
    String titled = text.replaceFirst("(?i)^(?:in|for)\\s+(?=\\p{L})", "");
    for (String start : List.of(text, titled)) {
      Optional<WrittenNumber> found = startsWithTitle(start);
      if (found.isPresent()) {
        return new Named(found, Optional.empty(), dropTitle(start, found.get()));
      }
    }
    return new Named(Optional.empty(), Optional.empty(), text);
  }

  private Named trailing(String text) {
    Matcher end = AT_END.matcher(text);
    Matcher bare = BARE_AT_END.matcher(text);
    Matcher match = end.matches() ? end : bare;
    if (match.matches() && byLabel(match.group(2)).isPresent()) {
      return new Named(byLabel(match.group(2)), Optional.empty(), match.group(1));
    }
    String lower = text.toLowerCase(Locale.ROOT).replaceFirst("[.!]$", "");
    int in = lower.lastIndexOf(" in ");
    if (in > 0) {
      Optional<WrittenNumber> titled =
          byTitle.getOrDefault(lower.substring(in + 4).strip(), Optional.empty());
      if (titled.isPresent()) {
        return new Named(titled, Optional.empty(), text.substring(0, in));
      }
    }
    return new Named(Optional.empty(), Optional.empty(), text);
  }

  Optional<WrittenNumber> byLabel(String label) {
    return byLabel.getOrDefault(label.toLowerCase(Locale.ROOT), Optional.empty());
  }

  /** Returns the labels by the titles, where a title is one number's. */
  Map<String, String> titles() {
    Map<String, String> titles = new HashMap<>();
    for (WrittenNumber number : numbers) {
      String title = Spoken.plain(number.title());
      boolean one = called(title).filter(n -> n == number).isPresent();
      if (one && byLabel(number.label()).isPresent()) {
        titles.put(title, number.label());
      }
    }
    return titles;
  }

  /** Returns the number of exactly this title. */
  Optional<WrittenNumber> called(String title) {
    return byTitle.getOrDefault(title.strip().toLowerCase(Locale.ROOT), Optional.empty());
  }

  /** The longest title that a line begins with, up to a word's end. */
  private Optional<WrittenNumber> startsWithTitle(String line) {
    String lower = line.toLowerCase(Locale.ROOT).replaceFirst("^\"", "");
    for (int end = Math.min(lower.length(), 120); end > 2; end--) {
      boolean word = end == lower.length() || !Character.isLetterOrDigit(lower.charAt(end));
      if (word && byTitle.containsKey(lower.substring(0, end))) {
        return byTitle.getOrDefault(lower.substring(0, end), Optional.empty());
      }
    }
    return Optional.empty();
  }

  boolean titled(String line) {
    return startsWithTitle(line).isPresent();
  }

  private static String dropTitle(String rest, WrittenNumber number) {
    String text = rest.strip().replaceFirst("^[:,.-]+\\s*", "");
    String title = Spoken.plain(number.title()).toLowerCase(Locale.ROOT);
    String quoted = text.replaceFirst("^[\"'(]+", "");
    if (!title.isEmpty() && quoted.toLowerCase(Locale.ROOT).startsWith(title)) {
      text = quoted.substring(title.length()).replaceFirst("^[\"')]+", "").strip();
    }
    return text.replaceFirst("^[:,.-]+\\s*", "").strip();
  }

  List<String> labels() {
    return numbers.stream()
        .map(n -> n.title().isEmpty() ? "No. " + n.label() : "No. " + n.label() + " " + n.title())
        .limit(PlanFinding.MOST_NUMBERS)
        .toList();
  }
}
