package org.barmap.plan.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.change.say.Meta;
import org.barmap.plan.change.say.Wording;

/**
 * Reads a director's cut list.
 *
 * <p>One instruction a line, or several behind each other ("No. 7: cut 34 to 49, vamp B to B+1"). A
 * number is named once and holds until the next: "No. 7:", "7.", its title, or "No. 7 Low Tide".
 */
public final class ChangeWords {
  /** A longer list is no cut list. */
  static final int MOST_LINES = 2000;

  /** A longer line is no instruction; what goes on behind is not read. */
  private static final int MOST_LETTERS = 400;

  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final String VERB =
      ShowChange.wordings().stream()
          .map(Wording::verbs)
          .filter(v -> !v.isEmpty())
          .collect(Collectors.joining("|", "(?:", ")"));
  private static final Pattern NEXT =
      Pattern.compile(
          "\\s*(?:,|;|\\band\\b|\\.(?=\\s))\\s*(?:and\\s+|then\\s+)?(?=" + VERB + "\\b)", FLAGS);
  private static final Pattern LINES =
      Pattern.compile("[\\r\\n;]+|(?<=[\\p{L}\\p{N}]\\.)\\s+(?=(?:no|nr)\\b\\.?\\s*\\d)", FLAGS);
  private static final Pattern NUMBER =
      Pattern.compile(
          "(?:(?:no|nr|num)\\b\\.?|number|#|\\u2116)\\s*(\\d{1,4}[A-Za-z]{0,3}|[A-Za-z]{1,3}\\d{0,3})\\b\\s*(.*)",
          FLAGS);
  private static final Pattern BARE =
      Pattern.compile("(\\d{1,4}[A-Za-z]{0,2})\\s*[.:)]\\s+(.*)", FLAGS);
  private static final Pattern CUT_NUMBER =
      Pattern.compile(
          "(?:cut|omit|tacet|play)\\s+(?=(?:(?:no|nr)\\b\\.?|number|#|\\u2116)\\s*\\d)", FLAGS);

  private static final Pattern SAYS = Pattern.compile("\\b" + VERB + "\\b", FLAGS);

  private final String book;
  private final List<WrittenNumber> numbers;
  private final List<Heard<ShowChange>> heard = new ArrayList<>();
  private Optional<WrittenNumber> number = Optional.empty();
  private int next = 1;

  private ChangeWords(BarMap map) {
    this.numbers = WrittenNumber.all(map);
    this.book = map.book().title().strip().toLowerCase(Locale.ROOT);
    if (numbers.size() == 1) {
      this.number = Optional.of(numbers.get(0));
    }
  }

  /** Returns what was understood of a text and what is asked back, in the order it was said. */
  public static List<Heard<ShowChange>> understand(BarMap map, String text) {
    ChangeWords words = new ChangeWords(map);
    String[] lines = LINES.split(text, MOST_LINES + 1);
    for (int i = 0; i < lines.length && i < MOST_LINES; i++) {
      String line =
          lines[i].strip().replaceFirst("^[\\-*\\u2022\\u2013]\\s*", "").replaceAll("\\s+", " ");
      if (!line.isEmpty() && !words.heading(line)) {
        words.line(line.length() > MOST_LETTERS ? line.substring(0, MOST_LETTERS) : line);
      }
    }
    if (lines.length > MOST_LINES) {
      words.heard.add(
          new Heard.AskedBack<>(
              "",
              "The list has more than " + MOST_LINES + " lines; the rest was not read.",
              List.of()));
    }
    return List.copyOf(words.heard);
  }

  /** A line that starts with the show's name and says nothing about a number is a heading. */
  private boolean heading(String line) {
    boolean named = book.length() > 2 && line.toLowerCase(Locale.ROOT).startsWith(book);
    return named && heard.isEmpty() && byTitle(line).isEmpty() && !SAYS.matcher(line).find();
  }

  private void line(String line) {
    Optional<Heard<ShowChange>> order =
        Orders.read(line, numbers, "n" + next)
            .or(() -> NumberJumps.read(line, numbers, "n" + next));
    if (order.isPresent()) {
      add(order.get());
      return;
    }
    String rest = LinkLines.numberFirst(line, numbers, number);
    Matcher verbFirst = CUT_NUMBER.matcher(line);
    String verb = "";
    if (verbFirst.lookingAt()) {
      verb = line.substring(0, verbFirst.end()).strip();
      rest = line.substring(verbFirst.end());
    }
    Matcher named = NUMBER.matcher(rest);
    Matcher bare = BARE.matcher(rest);
    if (named.matches() || bare.matches()) {
      Matcher match = named.matches() ? named : bare;
      Optional<WrittenNumber> found = byLabel(match.group(1));
      if (found.isEmpty()) {
        heard.add(
            new Heard.AskedBack<>(
                line, "There is no No. " + match.group(1) + " in this book.", labels()));
        number = Optional.empty();
        return;
      }
      number = found;
      rest = dropTitle(match.group(2), found.get());
    } else {
      Optional<WrittenNumber> titled = byTitle(rest);
      if (titled.isPresent()) {
        number = titled;
        rest = dropTitle(rest, titled.get());
      }
    }
    if (!verb.isEmpty()) {
      rest = rest.isEmpty() ? verb : verb + " " + rest;
    }
    if (!rest.isBlank()) {
      instructions(line, rest);
    }
  }

  private void instructions(String line, String rest) {
    if (number.isEmpty()) {
      heard.add(new Heard.AskedBack<>(line, "Which number is this for?", labels()));
      return;
    }
    for (String one : NEXT.split(rest)) {
      String words = one.strip().replaceFirst("[.,:]+$", "");
      if (!words.isEmpty()) {
        add(new Instruction(number.get(), words, Meta.of("n" + next)).read());
      }
    }
  }

  private void add(Heard<ShowChange> one) {
    heard.add(one);
    next++;
  }

  private Optional<WrittenNumber> byLabel(String label) {
    List<WrittenNumber> same =
        numbers.stream().filter(n -> n.label().equalsIgnoreCase(label)).toList();
    return same.size() == 1 ? Optional.of(same.get(0)) : Optional.empty();
  }

  private Optional<WrittenNumber> byTitle(String line) {
    String lower = line.toLowerCase(Locale.ROOT);
    List<WrittenNumber> same =
        numbers.stream()
            .filter(n -> n.title().length() > 2)
            .filter(n -> lower.startsWith(n.title().toLowerCase(Locale.ROOT)))
            .toList();
    return same.size() == 1 ? Optional.of(same.get(0)) : Optional.empty();
  }

  private static String dropTitle(String rest, WrittenNumber number) {
    String text = rest.strip().replaceFirst("^[:,.\\u2013\\u2014-]+\\s*", "");
    String title = number.title().toLowerCase(Locale.ROOT);
    String quoted = text.replaceFirst("^[\"\\u201C\\u2018'(]+", "");
    if (!title.isEmpty() && quoted.toLowerCase(Locale.ROOT).startsWith(title)) {
      text = quoted.substring(title.length()).replaceFirst("^[\"\\u201D\\u2019')]+", "").strip();
    }
    return text.replaceFirst("^[:,.\\u2013\\u2014-]+\\s*", "").strip();
  }

  private List<String> labels() {
    return numbers.stream()
        .map(n -> n.title().isEmpty() ? "No. " + n.label() : "No. " + n.label() + " " + n.title())
        .limit(PlanFinding.MOST_NUMBERS)
        .toList();
  }
}
