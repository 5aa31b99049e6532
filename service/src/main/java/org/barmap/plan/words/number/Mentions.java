package org.barmap.plan.words.number;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.term.Numerals;

/** Finds the numbers of a book in a sentence, by their labels and titles. */
public final class Mentions {
  private static final String LABEL = "(\\d{1,4}[A-Za-z]{0,2})";
  private static final String END = "(?![\\w/])";
  private static final Pattern WORD = phrase("\\b(number|no\\.)\\s+(" + Numerals.CARDINAL + ")\\b");
  private static final String FILLERS =
      "^(?:(?:and|so|ok|okay|now|please|folks|guys|everyone|everybody|all|right|hi|then|um|uh|er|oh|well)\\b[,\\s]*)*";

  /** "In three, ..." where a sentence begins is a number of the show; elsewhere beats of a bar. */
  private static final Pattern AHEAD =
      phrase("(" + FILLERS + "\\b(?:in|for)\\s+)(" + Numerals.CARDINAL + ")\\b");

  /** "Four: we start at 5". */
  private static final Pattern CALLED =
      phrase("(" + FILLERS + ")(" + Numerals.CARDINAL + ")(?=\\s*:)");

  private static final Pattern LETTERED =
      Pattern.compile("\\b(" + Numerals.CARDINAL + ")\\s+([A-D])\\b");
  private static final Pattern SAID =
      phrase(
          "(?:\\b(?:in|for|on|of|from|to)\\s+)?(?:\\b(?:no|nr|num|number)\\b\\.?|#|\\u2116)\\s*"
              + LABEL
              + END
              + "[,:]?");

  /** A bare figure is a number of the show only in words like these. */
  private static final List<Pattern> BARE =
      List.of(
          phrase(
              FILLERS
                  + "\\b(?:in|for)\\s+"
                  + LABEL
                  + END
                  + "(?!\\s*(?:from|at|throughout|till|until|to|through|bars?|beats?|please\\s*$|[.!]?$))[,:]?"),
          phrase("(?<=[\\dA-Z])\\s+in\\s+" + LABEL + END + "(?=\\s*[.!]?$)"),
          phrase("^" + LABEL + END + "(?:,?\\s+(?:pls|please|now))*\\s*:(?=\\s)"));

  private static final Pattern TOP =
      phrase("(?<=\\b(?:top|beginning|chord|note|applause)\\s)(?:of|for|in)\\s+" + LABEL + END);

  private static final List<Pattern> OF_SEVERAL =
      List.of(
          phrase("\\b(?:in|into|for|of)\\s+" + LABEL + END + "(?=\\s*[.!?]?$)"),
          phrase(
              "(?:^|(?<=order:\\s)|(?<=order,\\s)|(?<=,\\sso\\s)|(?<=,\\sand\\s)|(?<=,\\sbut\\s)|(?<=[.;]\\s))(?:(?:and|so|ok|now|then|please)\\s+)*(?<=^|\\s)"
                  + LABEL
                  + END
                  + "(?=,?\\s+(?!bars?|to\\b|through|thru|till|until|and\\s+\\d|times|beats?|counts?|more|extra|after|before)\\p{L}|\\s+(?:before|after)\\s+(?:no|number|\\d))"),
          phrase(
              "(?<=\\b(?:play|playing|doing|taking|running|do|take|run|move|put|swap|between|before|after|follows|following|from|into|out\\sof|behind|ahead\\sof|and|to|with)\\s)"
                  + LABEL
                  + END
                  + "(?!\\s*(?:bars?|beats?|times|counts?|-|more|extra|through|till|until)\\b)"));

  private static final Pattern BESIDE =
      phrase(".*\\b(?:after|before|between|behind|follow\\w*)\\s*");

  private final List<WrittenNumber> numbers;

  /** Makes a book's numbers ready. */
  public Mentions(List<WrittenNumber> numbers) {
    this.numbers = List.copyOf(numbers);
  }

  /**
   * A number as a sentence names it.
   *
   * @param label its label in the book
   * @param start where the words for it begin
   * @param end where they end
   */
  public record Mention(String label, int start, int end) {}

  /** Writes "number five", "in five," where a sentence begins, and "five A" with figures. */
  public String figures(String text) {
    String all = figured(CALLED, figured(AHEAD, figured(WORD, text, " "), ""), "");
    return LETTERED
        .matcher(all)
        .replaceAll(
            m -> {
              String label = Numerals.value(m.group(1)).orElse(0) + m.group(2);
              return Matcher.quoteReplacement(label(label).isPresent() ? label : m.group());
            });
  }

  private static String figured(Pattern said, String text, String between) {
    return said.matcher(text)
        .replaceAll(
            m ->
                Matcher.quoteReplacement(
                    m.group(1) + between + Numerals.value(m.group(2)).orElse(0)));
  }

  /**
   * Returns the numbers that a text names, in order.
   *
   * @param named a number was named before, so that a bare figure is a bar
   */
  public List<Mention> in(String text, boolean named) {
    List<Mention> found = new ArrayList<>();
    find(SAID, text, found);
    BARE.forEach(p -> find(p, text, found));
    if (numbers.size() > 1) {
      lettered(text, found);
      titles(text, found);
      find(TOP, text, found);
      if (!named) {
        OF_SEVERAL.forEach(p -> find(p, text, found));
      }
    }
    found.sort(Comparator.comparingInt(Mention::start));
    return found;
  }

  private void find(Pattern pattern, String text, List<Mention> found) {
    Matcher m = pattern.matcher(text);
    while (m.find()) {
      Optional<String> label = label(m.group(1));
      if (label.isPresent() && free(found, m.start(), m.end())) {
        found.add(new Mention(label.get(), m.start(), m.end()));
      }
    }
  }

  private Optional<String> label(String said) {
    List<String> same =
        numbers.stream().map(WrittenNumber::label).filter(l -> l.equalsIgnoreCase(said)).toList();
    return same.size() == 1 ? Optional.of(same.get(0)) : Optional.empty();
  }

  private static boolean free(List<Mention> found, int start, int end) {
    return found.stream().noneMatch(f -> start < f.end() && end > f.start());
  }

  /** "5A" is no bar where a number is called so. */
  private void lettered(String text, List<Mention> found) {
    for (WrittenNumber number : numbers) {
      if (number.label().matches("\\d+[A-Za-z]+")) {
        find(
            phrase(
                "(?:\\b(?:in|for|of)\\s+)?(?<!\\b(?:bar|bars|measure|to|from)\\s)\\b("
                    + Pattern.quote(number.label())
                    + ")\\b[,:]?"),
            text,
            found);
      }
    }
  }

  /** A title of one word may be any word where it is written small. */
  private void titles(String text, List<Mention> found) {
    for (WrittenNumber number : numbers) {
      String title = number.title().strip();
      long same = numbers.stream().filter(n -> n.title().strip().equalsIgnoreCase(title)).count();
      if (title.length() < 3 || same > 1) {
        continue;
      }
      int flags = title.indexOf(' ') > 0 ? Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE : 0;
      Matcher m =
          Pattern.compile(
                  "(?:\\b[Ii]n\\s+|\\b[Ff]or\\s+|\\b[Oo]f\\s+)?(?<![\\p{L}\\p{N}])[\"']?"
                      + Pattern.quote(title)
                      + "(?:[\"'](?!s\\b))?(?![\\p{L}\\p{N}])[,:]?",
                  flags)
              .matcher(text);
      while (m.find()) {
        if (free(found, m.start(), m.end())) {
          found.add(new Mention(number.label(), m.start(), m.end()));
        }
      }
    }
  }

  /** Whether a number only says where another thing stands: "after 4". */
  public static boolean beside(String text, List<Mention> mentions) {
    return mentions.stream().anyMatch(m -> BESIDE.matcher(text.substring(0, m.start())).matches());
  }

  /** Returns a text without the words for its numbers. */
  public static String without(String text, List<Mention> mentions) {
    StringBuilder rest = new StringBuilder(text);
    for (int i = mentions.size() - 1; i >= 0; i--) {
      rest.replace(mentions.get(i).start(), mentions.get(i).end(), " ");
    }
    return rest.toString()
        .replaceAll("\\s{2,}", " ")
        .replaceAll("\\s+(?=[,.;:!?])", "")
        .strip()
        .replaceFirst("^[,:;.-]+\\s*", "")
        .replaceFirst("^'s\\s+", "is ")
        .replaceAll("([,:]),+", "$1");
  }
}
