package org.barmap.plan.words;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.plan.change.say.Meta;

/**
 * In which version of the show, or until when, an instruction holds: "cut 5 to 6, matinees only",
 * "… until 2026-06-01".
 *
 * @param words the instruction without it
 * @param meta what the change gets
 */
record Showings(String words, Meta meta) {
  private static final List<String> MONTHS =
      List.of("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");
  private static final Pattern SINCE =
      phrase(
          "(.+?)\\s*[,(]?\\s*\\b(?:from|starting|since)\\s+(\\d{4}-\\d{2}-\\d{2})(?:\\s+on(?:wards?)?)?\\)?");

  /** "When Anna plays": somebody's own version. */
  private static final String WHO =
      "(?:when(?:ever)?|if)\\s+(?:the\\s+)?(?<who>understudy|swing|cover|stand-?in|alternate|deputy|(?-i:\\p{Lu}\\p{Ll}{2,19}))(?:'s|\\s+is|\\s+goes|\\s+comes)?\\s+(?:on|playing|plays|covers|covering|does\\s+it|doing\\s+it)(?:\\s+only)?";

  private static final Pattern CAST = phrase("(?<words>.+?)\\s*[,(]?\\s+" + WHO + "\\)?");
  private static final Pattern CAST_AHEAD =
      phrase("(?<when>(?:only\\s+)?" + WHO + ")\\s*[,:]?\\s+(?<rest>.+)");
  private static final Pattern VERSION =
      phrase(
          "(.+?)\\s*[,(]?\\s*\\b(?:(?:only\\s+)?(?:for|at|on|in|with)\\s+(?:the\\s+)?(?:schools?'?\\s+)?)?"
              + "(matin[e\\u00E9]e|evening|understudy|swing|preview)(?:s|'s\\s+key)?"
              + "(?:\\s+(?:performances?|shows?|days?))?(?:\\s+only)?\\)?");
  private static final Pattern NAMED =
      phrase(
          "(.+?)\\s*[,(]?\\s*\\b(?:in\\s+)?version\\s+[\"\\u201C]?(\\w[\\w"
              + " -]{0,30}?)[\"\\u201D]?(?:\\s+only)?\\)?");
  private static final Pattern UNTIL =
      phrase(
          "(.+?)\\s*[,(]?\\s*\\b(?:until|till|through|up\\s+to)\\s+(?:the\\s+)?(\\d{4}-\\d{2}-\\d{2}|\\d{1,2}\\.?\\s+\\p{L}+\\.?\\s+\\d{4})\\)?");

  private static final Pattern NO_YEAR =
      phrase(
          ".+?\\b(?:until|till|through|up\\s+to)\\s+(?:the\\s+)?(\\d{1,2})\\.?\\s+(\\p{L}{3,9})\\.?\\)?");
  private static final Pattern AHEAD =
      phrase(
          "((?:(?:only\\s+)?(?:for|at|on|in)\\s+(?:the\\s+)?)?(?:matin[e\\u00E9]e|evening|understudy|swing|preview)(?:s|'s\\s+key)?"
              + "(?:\\s+(?:performances?|shows?|days?))?(?:\\s+only)?|from\\s+\\d{4}-\\d{2}-\\d{2}(?:\\s+on)?|(?:until|till|up\\s+to)\\s+(?:the\\s+)?"
              + "(?:\\d{4}-\\d{2}-\\d{2}|\\d{1,2}\\.?\\s+\\p{L}{3,9}\\.?(?:\\s+\\d{4})?))"
              + "(?:\\s*[:,]|(?=\\s+(?:no|number|nr|we|you|let's|there's)\\b)|(?=\\s+"
              + Sentences.VERB
              + "\\b))\\s*(.*)");

  private static final Pattern WEEKDAY =
      phrase(
          "(?:.+?[,\\s])?(?:until|till|up\\s+to|from|starting)\\s+(?:(?:this|next)\\s+)?((?:mon|tues|wednes|thurs|fri|satur|sun)day)(?:\\s+(?:on|night|evening))*");

  private static final Pattern THIS_DAY =
      phrase(
          "(?:.+?\\b(?:tonight|today)(?:'s\\s+(?:performance|show))?(?:\\s+only)?|.+?\\bthis\\s+(?:performance|show)\\s+only|.+?\\b(?:only|just)\\s+(?:for\\s+)?(?:tonight|today))");

  /** Takes such words off the end of an instruction; empty where there are none. */
  static Optional<Showings> off(String words, Meta meta) {
    Matcher until = UNTIL.matcher(words);
    if (until.matches()) {
      Optional<String> day = day(until.group(2));
      if (day.isPresent()) {
        Meta ended = meta.until(day);
        return Optional.of(off(until.group(1), ended).orElse(new Showings(until.group(1), ended)));
      }
    }
    Matcher since = SINCE.matcher(words);
    if (since.matches() && day(since.group(2)).isPresent()) {
      Meta begun = meta.since(day(since.group(2)));
      return Optional.of(off(since.group(1), begun).orElse(new Showings(since.group(1), begun)));
    }
    Matcher cast = CAST.matcher(words);
    if (cast.matches()) {
      Meta named = meta.version(Optional.of(cast.group("who").toLowerCase(Locale.ROOT)));
      String without = cast.group("words");
      return Optional.of(off(without, named).orElse(new Showings(without, named)));
    }
    for (Pattern pattern : new Pattern[] {NAMED, VERSION}) {
      Matcher version = pattern.matcher(words);
      if (version.matches()) {
        String name = version.group(2).toLowerCase(Locale.ROOT).replace('\u00E9', 'e').strip();
        Meta named = meta.version(Optional.of(name));
        return Optional.of(
            off(version.group(1), named).orElse(new Showings(version.group(1), named)));
      }
    }
    return Optional.empty();
  }

  /**
   * What stands before all of a line: "matinee only: No. 2 cut 5 to 8".
   *
   * @param when as it may stand behind each change
   * @param rest the line without it
   */
  record Ahead(String when, String rest) {}

  /** Takes such words off the front of a line; empty where there are none. */
  static Optional<Ahead> ahead(String line) {
    Matcher cast = CAST_AHEAD.matcher(line);
    Optional<Ahead> one =
        cast.matches()
            ? ahead(cast.group("when"), cast.group("rest"))
            : Optional.of(AHEAD.matcher(line))
                .filter(Matcher::matches)
                .flatMap(m -> ahead(m.group(1).replaceFirst("'s\\s+key$", ""), m.group(2)));
    return one.map(
        a ->
            ahead(a.rest())
                .map(more -> new Ahead(a.when() + ", " + more.when(), more.rest()))
                .orElse(a));
  }

  private static Optional<Ahead> ahead(String when, String said) {
    String rest = said.strip();
    boolean change =
        rest.isBlank()
            || Sentences.hasVerb(rest)
            || rest.matches(
                "(?i)(?:no|number|nr|there's|we|you|it's|let's|the|take|bars?|letter|in|goes|go|tacet|up|down|start|play)\\b.*")
            || rest.matches("\\d{1,4}[A-Za-z]{0,2}\\b.*");
    return change ? Optional.of(new Ahead(when.strip(), rest)) : Optional.empty();
  }

  /** Returns what is wrong with the day that words end with; empty where they end with none. */
  static Optional<String> noDay(String words) {
    Matcher year = NO_YEAR.matcher(words);
    if (year.matches() && MONTHS.contains(month(year.group(2)))) {
      String day = year.group(1) + " " + year.group(2);
      return Optional.of("Of which year is " + day + "? Say it with the year.");
    }
    if (THIS_DAY.matcher(words).matches()) {
      return Optional.of(
          "Which day is that? Say the last day it holds, as in \"cut 5 to 8 until 24 December"
              + " 2026\".");
    }
    Matcher week = WEEKDAY.matcher(words);
    if (week.matches()) {
      return Optional.of(
          "Which " + week.group(1) + "? Say the day, as in \"until 24 December 2026\".");
    }
    Matcher until = UNTIL.matcher(words);
    return until.matches() && day(until.group(2)).isEmpty()
        ? Optional.of("There is no " + until.group(2) + ".")
        : Optional.empty();
  }

  /** Returns a day as ISO 8601 writes it: "2026-06-01", "1 June 2026". */
  private static Optional<String> day(String said) {
    String[] parts = said.replace(".", " ").strip().split("[\\s-]+", -1);
    boolean iso = said.indexOf('-') > 0;
    try {
      return Optional.of(
          LocalDate.of(
                  Integer.parseInt(parts[iso ? 0 : 2]),
                  iso ? Integer.parseInt(parts[1]) : MONTHS.indexOf(month(parts[1])) + 1,
                  Integer.parseInt(parts[iso ? 2 : 0]))
              .toString());
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static String month(String said) {
    return said.toLowerCase(Locale.ROOT).substring(0, Math.min(3, said.length()));
  }
}
