package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.live.Signals;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One database and one folder of pictures, open in two processes (each a library of its own). */
class SharedStoreTest {

  @TempDir private Path folder;
  private Library one;
  private Library other;

  private Library open() throws IOException {
    return Stores.POSTGRES.open(folder, Clock.systemUTC());
  }

  @BeforeEach
  void openBoth() throws IOException {
    one = open();
    other = open();
  }

  @AfterEach
  void closeBoth() {
    one.close();
    other.close();
  }

  private static Versioned<Draft> draft(Library library, String book) {
    return library.drafts().find(book).orElseThrow();
  }

  private String readBook() {
    String book = one.books().add("Saltmarsh", "Bass").id();
    assertThat(one.readings().lay(book, one.readings().material(book), Made.book(3)))
        .isInstanceOf(Saved.Done.class);
    return book;
  }

  @Test
  void whatOneKeepsTheOtherSees() {
    String book = readBook();
    Versioned<Draft> seen = draft(other, book);
    assertThat(seen).isEqualTo(draft(one, book));
    String bar = seen.value().map().bars().get(0).id();
    other.drafts().correct(book, seen.revision(), "Ada", new BarCorrection.SetCount(bar, 7));
    assertThat(draft(one, book).value().map().bar(bar).orElseThrow().count()).isEqualTo(7);
    assertThat(one.drafts().undo(book, seen.revision() + 1)).isInstanceOf(Saved.Done.class);
    assertThat(draft(other, book).value()).isEqualTo(seen.value());
  }

  /** Makes so many corrections and as many changes, each again until it is kept. */
  private static int editing(Library mine, String book, String bar, String name, int many) {
    int late = 0;
    for (int made = 0; made < many; ) {
      long seen = draft(mine, book).revision();
      var step = new BarCorrection.SetLabel(bar, name + made);
      boolean kept = mine.drafts().correct(book, seen, "", step) instanceof Saved.Done;
      made += kept ? 1 : 0;
      late += kept ? 0 : 1;
    }
    for (int made = 0; made < many; ) {
      long seen = mine.changes().find(book).orElseThrow().revision();
      var change = BarMapJson.mapper().createObjectNode().put("kind", "remind");
      boolean kept = mine.changes().add(book, seen, "", change) instanceof Saved.Done;
      made += kept ? 1 : 0;
      late += kept ? 0 : 1;
    }
    return late;
  }

  @Test
  void ofEditorsInBothOneIsTakenAtATimeAndNoStepIsLost() throws Exception {
    String book = readBook();
    String bar = draft(one, book).value().map().bars().get(0).id();
    int each = 10;
    ExecutorService editors = Executors.newFixedThreadPool(6);
    CountDownLatch together = new CountDownLatch(1);
    List<Future<Integer>> all = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      Library mine = i % 2 == 0 ? one : other;
      String name = "e" + i + ".";
      all.add(
          editors.submit(
              () -> {
                together.await();
                return editing(mine, book, bar, name, each);
              }));
    }
    together.countDown();
    int late = 0;
    for (Future<Integer> editor : all) {
      late += editor.get();
    }
    editors.shutdown();
    assertThat(late).as("they were in each other's way").isPositive();
    assertThat(draft(one, book).revision()).isEqualTo(1 + 6 * each);
    List<HistoryEntry> steps = other.drafts().history(book).entries();
    assertThat(steps.stream().map(HistoryEntry::id).distinct()).hasSize(6 * each);
    assertThat(other.changes().find(book).orElseThrow().value()).hasSize(6 * each);
    assertThat(other.changes().history(book).entries()).hasSize(6 * each);
  }

  /** An edit is made in one process while the other is told that it is taken back. */
  @Test
  void anEditIsMadeOrTakenBackNeverBoth() throws Exception {
    String book = one.books().add("Saltmarsh", "Bass").id();
    ExecutorService both = Executors.newFixedThreadPool(2);
    int changes = 0;
    for (int round = 0; round < 40; round++) {
      String key = "taken-back-" + round;
      CountDownLatch together = new CountDownLatch(1);
      Future<Boolean> made =
          both.submit(
              () -> {
                together.await();
                return added(one, book, key);
              });
      Future<Optional<Replies.Reply>> asked =
          both.submit(
              () -> {
                together.await();
                return other.replies().withdraw(key);
              });
      together.countDown();
      assertThat(asked.get().isPresent()).isEqualTo(made.get());
      changes += made.get() ? 1 : 0;
      assertThat(one.changes().find(book).orElseThrow().value()).hasSize(changes);
      assertThat(added(other, book, key)).as("with a key that is taken").isFalse();
    }
    both.shutdown();
    assertThat(one.changes().history(book).entries()).hasSize(changes);
  }

  /** Adds a change as an edit with a key; tells whether it was made. */
  private static boolean added(Library mine, String book, String key) {
    long seen = mine.changes().find(book).orElseThrow().revision();
    var change = BarMapJson.mapper().createObjectNode().put("kind", "remind");
    mine.replies().begin(key, "sent");
    try {
      return mine.changes().add(book, seen, "", change) instanceof Saved.Done;
    } catch (Replies.TakenException e) {
      return false;
    } finally {
      mine.replies().end();
    }
  }

  @Test
  void aStartBesideAnotherProcessTakesNothingFromIt() throws IOException {
    String book = one.books().add("Saltmarsh", "Bass").id();
    Path under = one.pages().folder(book).resolve(StartTest.name(1));
    Files.writeString(under, "not in a row yet");
    other.close();
    other = open();
    assertThat(under).exists();
    assertThat(other.signals().wasAlone()).isFalse();
    one.close();
    other.close();
    one = open();
    other = open();
    assertThat(one.signals().wasAlone()).isTrue();
    assertThat(under).as("set aside by the one that was alone").doesNotExist();
  }

  @Test
  void whatOneSaysTheOtherHearsAlsoAfterTheLineBroke() throws SQLException {
    List<String> heard = new CopyOnWriteArrayList<>();
    List<String> gaps = new CopyOnWriteArrayList<>();
    one.signals().hear("t", text -> heard.add("itself " + text));
    other.signals().hear("t", heard::add);
    other.signals().hear(Signals.GAP, gaps::add);
    one.signals().send("t", "first, with blanks");
    await().untilAsserted(() -> assertThat(heard).containsExactly("first, with blanks"));
    endAllConnections();
    await().untilAsserted(() -> assertThat(gaps).isNotEmpty());
    await()
        .untilAsserted(
            () -> {
              one.signals().send("t", "again");
              assertThat(heard).contains("again");
            });
    assertThat(one.books().add("After", "").title()).isEqualTo("After");
    assertThat(heard).noneMatch(h -> h.startsWith("itself"));
  }

  @Test
  void whoseLineIsBrokenForAMomentIsStillAtWork() throws IOException, SQLException {
    String book = one.books().add("Saltmarsh", "Bass").id();
    Path under = one.pages().folder(book).resolve(StartTest.name(1));
    Files.writeString(under, "not in a row yet");
    other.close();
    endAllConnections();
    // the line comes back after half a second
    other = open();
    assertThat(other.signals().wasAlone()).isFalse();
    assertThat(under).as("being uploaded").exists();
  }

  private void endAllConnections() throws SQLException {
    try (Connection connection = Stores.POSTGRES.connect(folder);
        Statement statement = connection.createStatement()) {
      statement.execute(
          "select pg_terminate_backend(pid) from pg_stat_activity"
              + " where datname = current_database() and pid <> pg_backend_pid()");
    }
  }

  @Test
  void aDatabaseThatCannotBeUsedIsNamedWithoutItsPassword(@TempDir Path elsewhere)
      throws IOException, SQLException {
    String there = Stores.postgres(folder);
    String wrong = there.replace("postgres@", "nobody:s3cr%40t@");
    assertThatThrownBy(() -> opened(wrong, elsewhere))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("postgresql://nobody@localhost")
        .hasMessageNotContaining("s3cr");
    assertThatThrownBy(() -> opened("postgresql://a:s3cr t@h/b", elsewhere))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageNotContaining("s3cr");
    assertThatThrownBy(() -> opened(there.replaceAll(":\\d+/", ":1/"), elsewhere))
        .hasMessageContaining("can't be used")
        .hasMessageContaining("refused");
    readBook();
    Path strange = Files.createDirectories(elsewhere.resolve("books/abcdefghjk"));
    Files.writeString(strange.resolve(StartTest.name(1)), "of another database");
    assertThatThrownBy(() -> opened(there, elsewhere)).hasMessageContaining("knows none");
    assertThat(strange.resolve(StartTest.name(1))).exists();
    try (Connection connection = Stores.POSTGRES.connect(folder);
        Statement statement = connection.createStatement()) {
      statement.execute(
          "insert into flyway_schema_history (installed_rank, version, description, type, script,"
              + " installed_by, execution_time, success)"
              + " values (999, '999', 'later', 'SQL', 'V999__later.sql', '', 1, true)");
    }
    assertThatThrownBy(this::open).hasMessageContaining("newer barmap");
  }

  /** A newer program is started while an older one works on the tables as they were. */
  @Test
  void theTablesAreNotBroughtUpToDateUnderWhoWorksOnThem() throws IOException, SQLException {
    String book = readBook();
    history("delete from flyway_schema_history where version = '19'");
    assertThatThrownBy(this::open)
        .isInstanceOf(RefusedFolderException.class)
        .hasMessageContaining("end every barmap on it");
    assertThat(draft(other, book)).isEqualTo(draft(one, book));
    history(
        "insert into flyway_schema_history (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success) values"
            + " (19, '19', 'turns', 'SQL', 'V19__turns.sql', '', 1, true)");
    try (Library third = open()) {
      assertThat(draft(third, book)).isEqualTo(draft(one, book));
    }
  }

  private void history(String statement) throws SQLException {
    try (Connection connection = Stores.POSTGRES.connect(folder);
        Statement one = connection.createStatement()) {
      one.execute(statement);
    }
  }

  private static void opened(String address, Path folder) throws IOException {
    PostgresLibrary.open(DatabaseAddress.of(address, Optional.empty()), folder, Clock.systemUTC())
        .close();
  }
}
