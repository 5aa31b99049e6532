package org.barmap.plan.words;

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
  private static final int FLAGS = Pattern.CASE_INSENSITIVE | Pattern.UNICODE_CASE;
  private static final List<String> MONTHS =
      List.of("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");
  private static final Pattern VERSION =
      Pattern.compile(
          "(.+?)\\s*[,(]?\\s*\\b(?:(?:for|at|on|in|with)\\s+(?:the\\s+)?)?"
              + "(matin[e\\u00E9]e|evening|understudy|swing|preview)(?:s|'s\\s+key)?"
              + "(?:\\s+(?:performances?|shows?))?(?:\\s+only)?\\)?",
          FLAGS);
  private static final Pattern NAMED =
      Pattern.compile(
          "(.+?)\\s*[,(]?\\s*\\b(?:in\\s+)?version\\s+[\"\\u201C]?(\\w[\\w -]{0,30}?)[\"\\u201D]?(?:\\s+only)?\\)?",
          FLAGS);
  private static final Pattern UNTIL =
      Pattern.compile(
          "(.+?)\\s*[,(]?\\s*\\b(?:until|till|through|up\\s+to)\\s+(?:the\\s+)?(\\d{4}-\\d{2}-\\d{2}|\\d{1,2}\\.?\\s+\\p{L}+\\.?\\s+\\d{4})\\)?",
          FLAGS);

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

  /** Returns a day as ISO 8601 writes it: "2026-06-01", "1 June 2026". */
  private static Optional<String> day(String said) {
    if (said.indexOf('-') > 0) {
      return Optional.of(said);
    }
    String[] parts = said.replace(".", " ").strip().toLowerCase(Locale.ROOT).split("\\s+", -1);
    String month = parts[1].substring(0, Math.min(3, parts[1].length()));
    int at = MONTHS.indexOf(month);
    int day = Integer.parseInt(parts[0]);
    boolean known = at >= 0 && month.length() == 3 && day >= 1 && day <= 31;
    return known
        ? Optional.of(String.format(Locale.ROOT, "%s-%02d-%02d", parts[2], at + 1, day))
        : Optional.empty();
  }
}
