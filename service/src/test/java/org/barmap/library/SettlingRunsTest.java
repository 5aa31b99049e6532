package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import jdk.jfr.Recording;
import jdk.jfr.consumer.RecordingFile;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** How often a click works the whole book out, as the flight recorder counts it. */
class SettlingRunsTest {

  @TempDir Path folder;
  @TempDir Path records;

  private interface Click {
    void make() throws Exception;
  }

  /** How many settlings of a whole book a click takes. */
  private int runs(Click click) throws Exception {
    Path file = records.resolve("click.jfr");
    try (Recording recording = new Recording()) {
      recording.enable("barmap.Settling").withoutThreshold().withoutStackTrace();
      recording.start();
      click.make();
      recording.stop();
      recording.dump(file);
    }
    return (int)
        RecordingFile.readAllEvents(file).stream()
            .filter(e -> e.getEventType().getName().equals("barmap.Settling"))
            .count();
  }

  @Test
  void aChangeSettlesOnceAndReadingNever() throws Exception {
    String book;
    List<Finding> open;
    try (SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC())) {
      book = library.books().add("Saltmarsh", "Bass").id();
      Drafts drafts = library.drafts();
      Readings readings = library.readings();
      BarMap map = Made.bookWithEvidence(7);
      assertThat(runs(() -> readings.lay(book, readings.material(book), map))).isEqualTo(1);
      String bar = now(drafts, book).value().map().bars().get(3).id();
      long seen = now(drafts, book).revision();
      assertThat(runs(() -> drafts.correct(book, seen, "", new BarCorrection.SetCount(bar, 9))))
          .isEqualTo(1);
      assertThat(runs(() -> now(drafts, book).value().open())).isZero();
      assertThat(runs(() -> drafts.undo(book, seen + 1))).isEqualTo(1);
      assertThat(runs(() -> drafts.redo(book, seen + 2))).isEqualTo(1);
      open = now(drafts, book).value().open();
      assertThat(open).isNotEmpty();
    }
    assertThat(opened(book, open)).as("kept with the draft").isZero();
    forget();
    assertThat(opened(book, open)).as("kept by an older program").isEqualTo(1);
    assertThat(opened(book, open)).as("worked out once").isZero();
  }

  private int opened(String book, List<Finding> expected) throws Exception {
    try (SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC())) {
      int runs = runs(() -> now(library.drafts(), book));
      assertThat(now(library.drafts(), book).value().open()).isEqualTo(expected);
      Optional<BookCard> card = library.books().find(book);
      assertThat(card.orElseThrow().doubts()).isEqualTo(expected.size());
      return runs;
    }
  }

  private static Versioned<Draft> now(Drafts drafts, String book) {
    return drafts.find(book).orElseThrow();
  }

  /** What a program kept that worked findings out each time. */
  private void forget() throws SQLException, IOException {
    String url = "jdbc:sqlite:" + folder.resolve("barmap.db");
    try (Connection database = DriverManager.getConnection(url);
        Statement statement = database.createStatement()) {
      statement.executeUpdate("update book set draft_open = null");
    }
  }
}
