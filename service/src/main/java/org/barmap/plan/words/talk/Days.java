package org.barmap.plan.words.talk;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.time.temporal.TemporalAdjusters;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Days as people say them, written as dates: "tonight only", "until Friday", "from the 3rd on".
 * What could be two days stays as it was said, and is asked.
 */
public final class Days {
  private static final List<String> WEEK = List.of("mon", "tue", "wed", "thu", "fri", "sat", "sun");
  private static final List<String> MONTHS =
      List.of("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");
  private static final String WEEKDAY =
      "(mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day(?:\\s+(?:night|evening))?\\b|\\b(?=\\s*(?:[,.;:!)]|$|on\\b)))(?!')";
  private static final String MONTH =
      "((?:jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)[a-z]{0,6})\\b\\.?";
  private static final String DAY = "(\\d{1,2})(?:st|nd|rd|th)?";
  private static final String TILL =
      "(?<!\\bnot\\s)(?:until|till|'til|through|up\\s+to)\\s+(?:and\\s+including\\s+)?";
  private static final String FROM = "(?:from|starting|beginning|as\\s+of|as\\s+from|since)\\s+";
  private static final String ON = "(?:\\s+(?:on(?:wards?)?|and\\s+after))?";

  private static final Pattern TONIGHT =
      phrase(
          "\\b(?:"
              + FROM
              + "|"
              + TILL
              + ")?(?<!\\b(?:not|except|but)\\s)(?:(?:just|only)\\s+)*(?:for\\s+)?(?:(?:just|only)\\s+)*(?:tonight|today|this\\s+(?:evening|performance|show))(?:'s\\s+(?:show|performance))?(?:\\s+only)?\\b(?!\\s+(?:or|and)\\b|')(?:\\s+on(?:wards?)?\\b(?!\\s+(?:the|bar|beat|letter)\\b))?");
  private static final Pattern TOMORROW =
      phrase("\\b(?:just\\s+|only\\s+)?(?:for\\s+)?tomorrow(?:\\s+(?:night|evening))?\\s+only\\b");
  private static final Pattern FROM_TOMORROW =
      phrase("\\b" + FROM + "tomorrow(?:\\s+(?:night|evening))?" + ON);
  private static final Pattern TILL_TOMORROW =
      phrase("\\b" + TILL + "tomorrow(?:\\s+(?:night|evening))?\\b");
  private static final Pattern TILL_WEEKDAY = phrase("\\b" + TILL + "(?:this\\s+)?" + WEEKDAY);
  private static final Pattern FROM_WEEKDAY = phrase("\\b" + FROM + "(?:this\\s+)?" + WEEKDAY + ON);
  private static final Pattern TILL_DATE =
      phrase(
          "\\b"
              + TILL
              + "(?:the\\s+)?"
              + DAY
              + "\\.?\\s+(?:of\\s+)?"
              + MONTH
              + "(?:\\s+(\\d{4}))?");
  private static final Pattern FROM_DATE =
      phrase(
          "\\b"
              + FROM
              + "(?:the\\s+)?"
              + DAY
              + "\\.?\\s+(?:of\\s+)?"
              + MONTH
              + "(?:\\s+(\\d{4}))?"
              + ON);

  /** "From the 3rd on" is a day where it says neither bar nor time; "cut from the 3rd on" may. */
  private static final Pattern FROM_THE =
      phrase(
          "(?:^|(?<=[,;]\\s)|(?<=\\S\\s))(?<!\\b(?:cut|tacet|vamp|safety|out|play|rest|silent|skip|omit|loop|repeat)\\s)"
              + FROM
              + "the\\s+(\\d{1,2})(?:st|nd|rd|th)\\s+(?:on|onwards?)(?=\\s*(?:[,.!]|$|we\\b|you\\b|no\\b|cut\\b))"
              + "(?!\\s*,?\\s*(?:(?:we|you|it|is|are|all)(?:'re|'s)?\\s+)*(?:cut|tacet|vamp|out|rest|silent|play)\\s*[.!]?$)");

  private static final Pattern BEGUN = phrase("\\bfrom\\s+(\\d{4}-\\d{2}-\\d{2})\\s+on\\b");

  private Days() {}

  /** Returns words with the days in them as dates; as they are where nobody knows the day. */
  public static String over(String words, Optional<String> today) {
    Optional<LocalDate> day = today.flatMap(Days::read);
    String text = dated(words, day);
    if (day.isEmpty()) {
      return text;
    }
    LocalDate now = day.get();
    text = put(TONIGHT, text, m -> Optional.of(tonight(m.group(), now)));
    text =
        put(
            TOMORROW,
            text,
            m -> Optional.of("from " + now.plusDays(1) + " on, until " + now.plusDays(1)));
    text = put(FROM_TOMORROW, text, m -> Optional.of("from " + now.plusDays(1) + " on"));
    text = put(TILL_TOMORROW, text, m -> Optional.of("until " + now.plusDays(1)));
    text = put(FROM_WEEKDAY, text, m -> first(m, now).map(d -> "from " + d + " on"));
    LocalDate begins = begun(text).filter(b -> b.isAfter(now)).orElse(now);
    text = put(TILL_WEEKDAY, text, m -> weekday(m.group(1), begins).map(d -> "until " + d));
    return put(FROM_THE, text, m -> ofMonth(m.group(1), now).map(d -> "from " + d + " on"));
  }

  /** "Tonight" is that day and no other; "from tonight on" begins with it. */
  private static String tonight(String said, LocalDate now) {
    boolean from = said.matches("(?is)(?:from|starting|beginning|as\\s+of|since)\\b.*");
    return from ? "from " + now + " on" : "until " + now;
  }

  private static Optional<LocalDate> first(MatchResult m, LocalDate now) {
    Optional<LocalDate> next = weekday(m.group(1), now);
    return since(m) ? next.map(d -> d.minusWeeks(1)) : next;
  }

  private static boolean since(MatchResult m) {
    return m.group().toLowerCase(Locale.ROOT).startsWith("since");
  }

  private static Optional<LocalDate> begun(String text) {
    Matcher m = BEGUN.matcher(text);
    return m.find() ? read(m.group(1)) : Optional.empty();
  }

  private static String dated(String words, Optional<LocalDate> now) {
    String text = put(TILL_DATE, words, m -> date(m, now).map(d -> "until " + d));
    return put(FROM_DATE, text, m -> date(m, now).map(d -> "from " + d + " on"));
  }

  private static String put(Pattern form, String text, Function<MatchResult, Optional<String>> as) {
    return form.matcher(text)
        .replaceAll(m -> Matcher.quoteReplacement(as.apply(m).orElse(m.group())));
  }

  private static Optional<LocalDate> read(String iso) {
    try {
      return Optional.of(LocalDate.parse(iso));
    } catch (DateTimeParseException e) {
      return Optional.empty();
    }
  }

  /** The coming one; where it is that day already, nobody knows which is meant. */
  private static Optional<LocalDate> weekday(String said, LocalDate now) {
    DayOfWeek day = DayOfWeek.of(WEEK.indexOf(start(said)) + 1);
    return now.getDayOfWeek() == day
        ? Optional.empty()
        : Optional.of(now.with(TemporalAdjusters.next(day)));
  }

  /** The next day of this number; the month is in the read-back. */
  private static Optional<LocalDate> ofMonth(String said, LocalDate now) {
    int day = Integer.parseInt(said);
    for (int i = 0; i < 3; i++) {
      LocalDate month = now.plusMonths(i);
      if (day > 0 && day <= month.lengthOfMonth() && !month.withDayOfMonth(day).isBefore(now)) {
        return Optional.of(month.withDayOfMonth(day));
      }
    }
    return Optional.empty();
  }

  /** A day without a year is the next one, where the day is known. */
  private static Optional<LocalDate> date(MatchResult m, Optional<LocalDate> now) {
    int day = Integer.parseInt(m.group(1));
    int month = MONTHS.indexOf(start(m.group(2))) + 1;
    try {
      if (m.group(3) != null) {
        return Optional.of(LocalDate.of(Integer.parseInt(m.group(3)), month, day));
      }
      if (now.isEmpty()) {
        return Optional.empty();
      }
      LocalDate next = LocalDate.of(now.get().getYear(), month, day);
      if (since(m)) {
        return Optional.of(next.isAfter(now.get()) ? next.minusYears(1) : next);
      }
      return Optional.of(next.isBefore(now.get()) ? next.plusYears(1) : next);
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static String start(String said) {
    return said.toLowerCase(Locale.ROOT).substring(0, 3);
  }
}
