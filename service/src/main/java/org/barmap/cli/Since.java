package org.barmap.cli;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZonedDateTime;
import java.time.temporal.TemporalAdjusters;
import java.util.Locale;
import org.barmap.plan.change.ShowChanges;

/** Since when: a day, a moment, or the name of a weekday. */
final class Since {

  private Since() {}

  /**
   * Returns the moment meant.
   *
   * @param said "2026-05-19", "2026-05-19T18:00:00Z", "tuesday" (the latest one before today),
   *     "today", "yesterday"; a day begins at midnight
   * @throws CommandException when it is none of these
   */
  static Instant moment(String said, ZonedDateTime now) {
    String word = said.strip().toLowerCase(Locale.ROOT);
    try {
      if (word.equals("today") || word.equals("yesterday")) {
        return start(now.toLocalDate().minusDays(word.equals("today") ? 0 : 1), now);
      }
      for (DayOfWeek day : DayOfWeek.values()) {
        if (word.length() > 2 && day.name().toLowerCase(Locale.ROOT).startsWith(word)) {
          return start(now.toLocalDate().with(TemporalAdjusters.previous(day)), now);
        }
      }
      return said.contains("T")
          ? Instant.parse(said.strip())
          : start(LocalDate.parse(said.strip()), now);
    } catch (DateTimeException e) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          "Since when? Say a day (2026-05-19), a moment (2026-05-19T18:00:00Z) or a weekday"
              + " (tuesday), not \""
              + said
              + "\".");
    }
  }

  private static Instant start(LocalDate day, ZonedDateTime now) {
    return day.atStartOfDay(now.getZone()).toInstant();
  }

  /** Returns the changes that were there at a moment; one without a date always was. */
  static ShowChanges until(ShowChanges changes, Instant moment) {
    return new ShowChanges(
        changes.changes().stream()
            .filter(c -> c.meta().when().map(w -> !made(w).isAfter(moment)).orElse(true))
            .toList());
  }

  /** Returns a change's date; one that can't be read was always there. */
  private static Instant made(String when) {
    try {
      return OffsetDateTime.parse(when).toInstant();
    } catch (DateTimeException e) {
      return Instant.MIN;
    }
  }
}
