package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** The machine's clock is set back: what was changed since a rehearsal is told all the same. */
class ClockBackTest extends OnEachStore {

  private static ObjectNode cut(String first) {
    return BarMapJson.mapper()
        .createObjectNode()
        .put("kind", "cut")
        .put("number", "1")
        .put("first", first)
        .put("last", "9");
  }

  private Instant rehearsed(String book) {
    Instant now = clock.instant();
    Settings settings = Settings.USUAL.withRehearsedAt(now);
    long revision = library.books().versionedSettings(book).revision();
    assertThat(library.books().setSettings(book, revision, settings)).isTrue();
    return now;
  }

  private List<ObjectNode> at(String book, Instant moment) {
    return library.changes().at(book, moment);
  }

  private void changed(String book, int revision, String first) {
    assertThat(library.changes().add(book, revision, "", List.of(cut(first))))
        .isInstanceOf(Saved.Done.class);
  }

  @Test
  void aChangeMadeAfterTheRehearsalIsAfterItWhateverTheClockSays() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    changed(book, 0, "3");
    clock.pass(Duration.ofHours(2));
    Instant rehearsed = rehearsed(book);
    clock.pass(Duration.ofHours(-5));
    changed(book, 1, "5");
    assertThat(at(book, rehearsed)).hasSize(1);
    reopen();
    changed(book, 2, "7");
    assertThat(at(book, rehearsed)).hasSize(1);
    library.changes().undo(book, 3);
    assertThat(at(book, rehearsed)).hasSize(1);
    clock.pass(Duration.ofHours(9));
    Instant later = clock.instant();
    assertThat(at(book, later)).hasSize(2);
    clock.pass(Duration.ofSeconds(1));
    library.changes().redo(book, 4);
    assertThat(at(book, later)).hasSize(2);
    assertThat(library.changes().history(book).entries().get(1).when())
        .as("what a person reads is what the clock said")
        .isEqualTo(NOW.minus(Duration.ofHours(3)));
  }

  @Test
  void whatWasTakenBackBeforeTheRehearsalStaysSo() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    changed(book, 0, "3");
    library.changes().undo(book, 1);
    clock.pass(Duration.ofHours(1));
    Instant rehearsed = rehearsed(book);
    clock.pass(Duration.ofDays(-1));
    reopen();
    library.changes().redo(book, 2);
    assertThat(at(book, rehearsed)).isEmpty();
    assertThat(library.changes().find(book).orElseThrow().value()).hasSize(1);
  }
}
