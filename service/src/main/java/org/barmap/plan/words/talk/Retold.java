package org.barmap.plan.words.talk;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Ways to take a message apart into the number it is about and what is said of it: "go from the end
 * of 12 to C in 3, please" is "No. 3: go from the end of 12 to C". Which of the figures is a number
 * of the show shows only when the rest is understood.
 *
 * @param label finds the label of a number of the book; empty where none, or several, are called so
 * @param titles the labels by the titles, as they are printed
 */
public record Retold(Function<String, Optional<String>> label, Map<String, String> titles) {
  private static final String LABEL = "(\\d{1,4}[A-Za-z]{0,2})";
  private static final String END = "(?![\\w/-])";
  private static final String NO = "(?:(?:no|nr|num|number)\\b\\.?|#)\\s*";
  private static final String NOT_COUNTED =
      "(?!\\s*(?:bars?|beats?|times?|x\\b|counts?|more|extra|empty|measures?|flats?|sharps?|through\\b|thru\\b|-\\s?\\d))";

  /** Called a number: it is one wherever it stands. */
  private static final Pattern CALLED =
      phrase(
          "(?:\\b(?:in|for|of|on|from|to|at)\\s+)?(?:\\b(?:our|the)\\s+)?\\b"
              + NO
              + LABEL
              + END
              + "('s\\b)?[,:]?");

  /** Where a number may stand without being called one. */
  private static final List<Pattern> BARE =
      List.of(
          phrase("\\b(?:in|for|of|on)\\s+" + LABEL + END + "('s\\b)?" + NOT_COUNTED + "[,:]?"),
          phrase(
              "(?:^|(?<=[.;:,]\\s)|(?<=\\b(?:so|but|and|oh)\\s))"
                  + LABEL
                  + END
                  + "('s\\b)?(?:[,:]|(?=\\s+[a-z]))"
                  + NOT_COUNTED),
          phrase(
              "(?<=\\b(?:play|beat|take|run|do|start|starting|conduct|beating|taking|doing|playing|try|have|give)\\s)"
                  + LABEL
                  + END
                  + "()"
                  + NOT_COUNTED));

  private static final Pattern LINK =
      phrase(
          "\\b(?:segues?|attacca|applause|straight\\s+(?:into|on)|no\\s+(?:break|gap|pause))\\b");
  private static final Pattern LINKED =
      phrase(
          "\\b(out\\s+of|from|between|after|end\\s+of)\\s+"
              + LABEL
              + ",?\\s+((?:(?:straight|directly|right)\\s+)?(?:into|to|and|on\\s+to))\\s+"
              + LABEL
              + END);

  /** "4 A" is 4A where a number is called so. */
  private static final Pattern LETTERED =
      Pattern.compile("\\b(\\d{1,3})\\s([A-D])\\b(?!\\s*(?:to|-|and|\\+)\\b)");

  /** Nobody leaves more open. */
  private static final int MOST = 8;

  private static final Pattern BAR_OF =
      phrase(
          "letter\\s+((?-i:[A-Z]{1,2})),\\s+(?:the\\s+)?((?:first|second|third|fourth|fifth|sixth|seventh|eighth|\\d+(?:st|nd|rd|th))\\s+bar)\\b(?!\\s+of)");
  private static final Pattern MARK_IS =
      phrase(
          "\\b((?:letter|bar)\\s+\\w+)'s\\s+(?!(?:first|last|opening|final|second|third|beat)\\b)");

  /** Takes defensive copies. */
  public Retold {
    titles = Map.copyOf(titles);
  }

  /** A title is written with capitals, whatever article it has; it stands for its number. */
  private String numbered(String text) {
    String all = text;
    for (Map.Entry<String, String> title : titles.entrySet()) {
      String bare = title.getKey().replaceFirst("^(?:The|A|An)\\s+(?=\\S{3})", "");
      if (bare.length() > 2) {
        all =
            Pattern.compile(
                    "(?<!\\b(?:[Tt]ill|[Uu]ntil|[Ww]hen|[Ww]hile|[Oo]nce|[Bb]ecause) )(?<![\\p{L}\\p{N}])[\"']?(?:[Tt]he\\s+|[Aa]n?\\s+)?"
                        + Pattern.quote(bare)
                        + "(?![\\p{L}\\p{N}])(?:[\"'](?!s\\b))?")
                .matcher(all)
                .replaceAll(Matcher.quoteReplacement("number " + title.getValue()));
      }
    }
    return all;
  }

  /** A message about a number, or about whichever is spoken of. */
  private record Span(String label, int start, int end, String left) {}

  /** Returns the message in other words, the likelier first. */
  public List<String> of(String figures) {
    String numbered = lettered(numbered(figures));
    String titled = lettered(figures);
    List<String> ways = new ArrayList<>(taken(numbered));
    String linked = linked(numbered);
    if (!linked.equals(numbered)) {
      ways.add(linked);
    }
    if (!titled.equals(numbered)) {
      ways.add(titled);
    }
    return ways.stream().distinct().limit(MOST).toList();
  }

  /** "Applause segue out of 4 into 5": two numbers of the show, whatever was spoken of before. */
  private String linked(String text) {
    Matcher m = LINKED.matcher(text);
    return LINK.matcher(text).find()
            && m.find()
            && label.apply(m.group(2)).isPresent()
            && label.apply(m.group(4)).isPresent()
        ? m.replaceFirst("$1 number $2 $3 number $4")
        : text;
  }

  private String lettered(String text) {
    String bars =
        MARK_IS.matcher(BAR_OF.matcher(text).replaceAll("the $2 of $1")).replaceAll("$1 is ");
    return Fillers.off(
        LETTERED
            .matcher(bars)
            .replaceAll(
                m ->
                    Matcher.quoteReplacement(
                        label.apply(m.group(1) + m.group(2)).orElse(m.group()))));
  }

  private List<String> taken(String text) {
    List<String> ways = new ArrayList<>();
    List<Span> called = spans(CALLED, text);
    List<String> labels = called.stream().map(Span::label).distinct().toList();
    if (labels.size() == 1) {
      String label = labels.get(0);
      List<Span> all = new ArrayList<>(called);
      BARE.forEach(
          p ->
              spans(p, text).stream()
                  .filter(s -> s.label().equals(label) && all.stream().allMatch(o -> apart(o, s)))
                  .filter(s -> text.substring(s.start()).matches("(?i)(?:in|for)\\s.*"))
                  .forEach(all::add));
      ways.add(about(label, text, called));
      if (all.size() > called.size()) {
        ways.add(about(label, text, all));
      }
    }
    ways.add(Conditions.over(text));
    if (labels.isEmpty()) {
      BARE.forEach(p -> spans(p, text).forEach(s -> ways.add(about(s.label(), text, List.of(s)))));
    }
    return ways;
  }

  private static boolean apart(Span one, Span other) {
    return other.end() <= one.start() || other.start() >= one.end();
  }

  private List<Span> spans(Pattern pattern, String text) {
    List<Span> found = new ArrayList<>();
    Matcher m = pattern.matcher(text);
    while (m.find()) {
      Optional<String> of = label.apply(m.group(1));
      boolean not =
          text.substring(0, m.start()).matches("(?is).*\\bnot\\s+") && m.group().startsWith("in ");
      String left = not ? "in " : m.group(2) == null || m.group(2).isEmpty() ? "" : "is ";
      of.ifPresent(l -> found.add(new Span(l, m.start(), m.end(), left)));
    }
    return found;
  }

  private static String about(String label, String text, List<Span> spans) {
    StringBuilder rest = new StringBuilder(text);
    spans.stream()
        .sorted((a, b) -> b.start() - a.start())
        .forEach(
            s -> {
              boolean pause = s.start() > 0 && s.end() > 0 && text.charAt(s.end() - 1) == ',';
              rest.replace(s.start(), s.end(), (pause ? ", " : " ") + s.left());
            });
    String said =
        rest.toString()
            .replaceAll("\\s{2,}", " ")
            .replaceAll("\\s+(?=[,.;:!?])", "")
            .replaceAll("([,:;])(?:\\s*[,:])+", "$1")
            .strip()
            .replaceFirst("^[,:;.-]+\\s*", "")
            .replaceFirst("[,;:]$", "");
    return Conditions.over("No. " + label + ": " + Fillers.off(said));
  }
}
