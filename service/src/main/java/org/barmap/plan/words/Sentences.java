package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Wording;
import org.barmap.plan.change.term.Pass;
import org.barmap.plan.words.bar.Range;
import org.barmap.plan.words.bar.Scope;

/** Takes a line apart into sentences, and a sentence into instructions. */
final class Sentences {
  static final String VERB =
      ShowChange.wordings().stream()
          .map(Wording::verbs)
          .filter(v -> !v.isEmpty())
          .collect(Collectors.joining("|", "(?:", ")"));
  private static final Pattern NEXT =
      phrase(
          "\\s*(?:,|\\band\\b|\\bthen\\b|(?<!\\bd\\.[cs])\\.(?=\\s))\\s*(?:and\\s+|then\\s+|also\\s+)*(?="
              + VERB
              + "\\b)");
  private static final Pattern SAYS = phrase("\\b" + VERB + "\\b");

  /** A full stop ends a sentence where a capital follows, but not behind an abbreviation. */
  private static final Pattern END =
      Pattern.compile(
          "(?<!\\b(?:no|nr|rpt|ferm|num|mm?|bb?|bt|fig|reh|rit|rall|accel|pizz|st|mr|mrs|ms|dr|incl|ext|el|elec|e|vs|g\\.p|d\\.c|d\\.s|op))"
              + "(?<=[\\p{L}\\p{N})\"])[.!?]\\s+(?=\\p{Lu})",
          Pattern.UNICODE_CASE);

  private static final Pattern NOTE = phrase("(?:.{0,60}:\\s*)?note\\b.*:.*");
  private static final Pattern LIST =
      phrase(
          "((?:(?:cut|omit|skip|drop|lose|(?:take|leave)\\s+out|safety|tacet|vamp)|watch(?:\\s+(?:at|in))?)"
              + "(?:\\s+(?:bars?|letters?))?)\\s+(.+)");
  private static final Pattern OUT = phrase("(.+?)(\\s+(?:are\\s+|is\\s+)?(?:out|cut))");
  private static final Pattern NO_REPEATS =
      phrase(
          "(?:no|without|skip|omit|cut|ignore|do(?:n't|\\s+not)(?:\\s+take)?)\\s+(?:any\\s+|all\\s+)?(?:of\\s+)?(?:the\\s+)?"
              + "(?:repeats|(vamps))");
  private static final Pattern EXCEPT =
      phrase(
          "(cut|omit|skip|drop|lose)\\s+(.+?),?\\s+(?:except|but\\s+not)\\s+(?:(?:for|at|on|in)\\s+)?(?:the\\s+)?"
              + "(matin[e\\u00E9]es?|evenings?|previews?|understudy|swing)");
  private static final Pattern TWO =
      phrase("(\\d{1,4})\\s*(?:and|&|\\+)\\s*(\\d{1,4})\\b(?!\\s*(?:-|to\\b|,))");
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
    Matcher none = NO_REPEATS.matcher(words);
    if (none.matches()) {
      List<String> once = once(scope, none.group(1) == null ? "" : "vamp");
      return once.size() > 1 ? once : List.of(words.replaceFirst("(?i)vamps$", "vamp"));
    }
    Matcher except = EXCEPT.matcher(words);
    if (except.matches()) {
      String bars = except.group(2);
      return List.of(except.group(1) + " " + bars, bars + " back in, " + except.group(3) + " only");
    }
    Matcher list = LIST.matcher(words);
    Matcher out = OUT.matcher(words);
    boolean first = list.matches();
    if (!first && !out.matches()) {
      return List.of(words);
    }
    String bars = first ? list.group(2) : out.group(1);
    Matcher two = TWO.matcher(bars);
    if (first && two.lookingAt() && words.matches("(?i)(?:vamp|safety)\\b.*") && next(two)) {
      return List.of(
          list.group(1) + " " + two.group(1) + " to " + two.group(2) + bars.substring(two.end()));
    }
    String core = first ? core(bars) : bars;
    String behind = bars.substring(core.length());
    String[] parts = BETWEEN.split(core);
    if (parts.length < 2 || parts.length > 40) {
      return List.of(words);
    }
    List<String> all = new ArrayList<>();
    for (String part : parts) {
      if (Range.read(scope, part, true).ways().isEmpty()) {
        return List.of(words);
      }
      String verb = first ? list.group(1).replaceFirst("(?i)letters$", "letter") : "";
      all.add(first ? verb + " " + part + behind : part + out.group(2));
    }
    return all;
  }

  /** Two bars beside each other go round together. */
  private static boolean next(Matcher two) {
    return Integer.parseInt(two.group(1)) + 1 == Integer.parseInt(two.group(2));
  }

  /** "No repeats" is every repeat, and no vamp; "no vamps" is every vamp. */
  private static List<String> once(Scope scope, String open) {
    return scope.repeats().stream()
        .filter(r -> r.open().equals(open))
        .map(r -> "play " + r.bars().first() + " to " + r.bars().last() + " once")
        .toList();
  }

  /** A list without what is said behind it for all of it: in which pass, in which version. */
  private static String core(String list) {
    String bars = Showings.off(list, Meta.of("list")).map(Showings::words).orElse(list);
    String core = Pass.behind(bars).words();
    return list.startsWith(core) ? core : list;
  }
}
