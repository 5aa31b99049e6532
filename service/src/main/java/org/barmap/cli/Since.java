package org.barmap.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZonedDateTime;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.plan.change.ShowChanges;

/** Since when: a day, or a moment. */
final class Since {

  private Since() {}

  /**
   * Returns the moment meant.
   *
   * @param said "2026-05-19" or "2026-05-19T18:00:00Z"; a day begins at midnight
   * @throws CommandException when it is none of these
   */
  static Instant moment(String said, ZonedDateTime now) {
    try {
      return said.contains("T")
          ? Instant.parse(said.strip())
          : start(LocalDate.parse(said.strip()), now);
    } catch (DateTimeException e) {
      throw new CommandException(
          ExitCode.WRONG_USE,
          "Since when? Say a day (2026-05-19) or a moment (2026-05-19T18:00:00Z), not \""
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
