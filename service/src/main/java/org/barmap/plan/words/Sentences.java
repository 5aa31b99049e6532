package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Wording;

/** Takes a line apart into sentences, and a sentence into instructions. */
final class Sentences {
  static final String VERB =
      ShowChange.wordings().stream()
          .map(Wording::verbs)
          .filter(v -> !v.isEmpty())
          .collect(Collectors.joining("|", "(?:", ")"));
  private static final Pattern NEXT =
      phrase(
          "\\s*(?:,|\\band\\b|\\bthen\\b|\\.(?=\\s))\\s*(?:and\\s+|then\\s+|also\\s+)*(?="
              + VERB
              + "\\b)");
  private static final Pattern SAYS = phrase("\\b" + VERB + "\\b");

  /** A full stop ends a sentence where a capital follows, but not behind an abbreviation. */
  private static final Pattern END =
      Pattern.compile(
          "(?<!\\b(?:no|nr|num|mm?|bb?|bt|fig|reh|rit|rall|accel|pizz|st|mr|mrs|ms|dr|incl|ext|el|elec|e|vs|g\\.p|d\\.c|d\\.s|op))"
              + "(?<=[\\p{L}\\p{N})\"])[.!?]\\s+(?=\\p{Lu})",
          Pattern.UNICODE_CASE);

  private static final Pattern NOTE = phrase("(?:.{0,60}:\\s*)?note\\b.*:.*");
  private static final Pattern LIST =
      phrase(
          "((?:(?:cut|omit|skip|drop|lose|safety|tacet|vamp)|watch(?:\\s+(?:at|in))?)(?:\\s+bars?)?)"
              + "\\s+(.+)");
  private static final Pattern OUT = phrase("(.+?)(\\s+(?:are\\s+|is\\s+)?(?:out|cut))");
  private static final Pattern BETWEEN = phrase("\\s*(?:,\\s*and|,|\\band\\b|&)\\s*");

  private Sentences() {}

  static boolean hasVerb(String line) {
    return SAYS.matcher(line).find();
  }

  static List<String> of(String line) {
    return NOTE.matcher(line).matches() ? List.of(line) : List.of(END.split(line));
  }

  static List<String> instructions(String rest) {
    if (NOTE.matcher(rest).matches()) {
      return List.of(rest);
    }
    List<String> all = new ArrayList<>();
    for (String one : NEXT.split(rest)) {
      String words = one.strip().replaceFirst("[.,:!]+$", "").strip();
      if (!words.isEmpty()) {
        all.add(words);
      }
    }
    return all;
  }

  /** "Cut 3, 5 and 7 to 9" as three instructions, where each part is bars of the number. */
  static List<String> spread(Scope scope, String words) {
    Matcher list = LIST.matcher(words);
    Matcher out = OUT.matcher(words);
    boolean first = list.matches();
    if (!first && !out.matches()) {
      return List.of(words);
    }
    String[] parts = BETWEEN.split(first ? list.group(2) : out.group(1));
    if (parts.length < 2 || parts.length > 40) {
      return List.of(words);
    }
    List<String> all = new ArrayList<>();
    for (String part : parts) {
      if (Range.read(scope, part, true).ways().isEmpty()) {
        return List.of(words);
      }
      all.add(first ? list.group(1) + " " + part : part + out.group(2));
    }
    return all;
  }
}
