package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code barmap plan --since}. */
class SinceTest {

  /** A day in winter; the day asked for may be in summer. */
  private static final ZonedDateTime NOW =
      ZonedDateTime.of(2026, 11, 12, 15, 0, 0, 0, ZoneId.of("Europe/London"));

  @ParameterizedTest
  @CsvSource({"2026-07-01, 2026-06-30T23:00:00Z", "2026-11-10T18:30:00Z, 2026-11-10T18:30:00Z"})
  void dayAndMomentAreUnderstood(String said, String moment) {
    assertThat(Since.moment(said, NOW)).hasToString(moment);
  }

  @Test
  void whatIsNoDayIsAskedBack() {
    assertThatThrownBy(() -> Since.moment("tuesday", NOW))
        .isInstanceOf(CommandException.class)
        .hasMessageContaining("Since when?");
  }

  @Test
  void onlyWhatBecameDifferentIsPrinted(@TempDir Path folder) throws IOException {
    Path map = folder.resolve("map.json");
    BarMapJson.write(Books.book("1@p1@w:q_=_120 2@mr8 10@p2 11 12 13 14"), map);
    Path changes = folder.resolve("changes.json");
    Files.writeString(
        changes,
        """
        { "format": "changes/1", "changes": [
          { "id": "old", "kind": "remind", "first": "12", "what": "watch",
            "when": "2026-11-01T10:00:00Z" },
          { "id": "new", "kind": "cut", "first": "4", "last": "7",
            "when": "2026-11-11T10:00:00Z" } ] }
        """);
    Ran ran = Ran.barmap("plan", map, "--changes", changes, "--since", "2026-11-10");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out())
        .contains("The book: 4 bars fewer")
        .contains("turn from page 1 to 2")
        .contains("rest from bar 2, was 8 bars: 4 bars rest")
        .contains("Write on page 1, line 1, bar 2: 4") // the new count over the rest of 8
        .doesNotContain("glasses");
    Ran later = Ran.barmap("plan", map, "--changes", changes, "--since", "2026-11-12");
    assertThat(later.out()).contains("Nothing is different for you.");
    assertThat(Ran.barmap("plan", map, "--since", "soon").code()).isEqualTo(ExitCode.WRONG_USE);
  }
}
