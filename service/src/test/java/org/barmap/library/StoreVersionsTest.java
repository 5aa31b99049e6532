package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.library.turn.Turn;
import org.barmap.library.turn.Turns;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Folders of older programs open, those of newer ones and damaged ones are refused and stay. */
class StoreVersionsTest {

  /** Before it a store did not keep what holds for all of it. */
  private static final int FIRST_SAVED = 15;

  @TempDir private Path folder;

  static List<KeptStores.Store> stores() throws IOException {
    return KeptStores.all();
  }

  private SqliteLibrary open() throws IOException {
    return SqliteLibrary.open(folder, Clock.systemUTC());
  }

  @Test
  void everyVersionIsKept() throws IOException {
    assertThat(KeptStores.all().stream().map(KeptStores.Store::version).toList())
        .as("run KeptStores for the new one")
        .isEqualTo(KeptStores.versions());
  }

  @ParameterizedTest
  @MethodSource("stores")
  void aFolderOfAnOlderProgramIsSavedAsItIsOrASentenceSaysWhatToDo(KeptStores.Store store)
      throws IOException {
    Files.write(folder.resolve("barmap.db"), store.bytes());
    Path to = folder.resolve("all.zip");
    if (Integer.parseInt(store.version()) < FIRST_SAVED) {
      assertThatThrownBy(() -> SqliteBackup.save(folder, to, true))
          .isInstanceOf(RefusedFolderException.class)
          .hasMessageContaining("start this one once");
      assertThat(to).doesNotExist();
    } else {
      assertThat(SqliteBackup.save(folder, to, false).books()).isEqualTo(1);
    }
  }

  @ParameterizedTest
  @MethodSource("stores")
  void aFolderOfAnOlderProgramOpens(KeptStores.Store store) throws IOException {
    Files.write(folder.resolve("barmap.db"), store.bytes());
    Path picture =
        Files.createDirectories(folder.resolve("books/" + KeptStores.BOOK))
            .resolve(KeptStores.PAGE);
    Files.writeString(picture, "picture");
    for (int round = 1; round <= 2; round++) {
      try (SqliteLibrary library = open()) {
        BookCard book = library.books().all().get(0);
        assertThat(book.title()).isEqualTo("Saltmarsh");
        assertThat(library.pages().all(book.id())).hasSize(3);
        Versioned<Draft> draft = library.drafts().find(book.id()).orElseThrow();
        assertThat(draft.value().map().bars()).hasSameSizeAs(Made.book(3).bars());
        assertThat(library.changes().find(book.id()).orElseThrow().value()).hasSize(1);
        assertThat(library.changes().at(book.id(), Instant.parse("2026-02-01T00:00:00Z")))
            .hasSize(1);
        String bar = draft.value().map().bars().get(0).id();
        assertThat(
                library
                    .drafts()
                    .correct(
                        book.id(),
                        draft.revision(),
                        "",
                        new BarCorrection.SetCount(bar, 6 + round)))
            .isInstanceOf(Saved.Done.class);
        assertThat(library.keeping().kept().missing()).isEmpty();
      }
    }
    assertThat(picture).hasContent("picture");
  }

  /** The same job of a store of every version: broken off in one, which had no row of books yet. */
  @ParameterizedTest
  @MethodSource("stores")
  void whatWaitedInAFolderOfAnOlderProgramIsGoneOnWith(KeptStores.Store store)
      throws IOException, SQLException {
    Files.write(folder.resolve("barmap.db"), store.bytes());
    Files.createDirectories(folder.resolve("books/" + KeptStores.BOOK));
    sql(
        "insert into job (id, book, state, text, created_at) values ('j', '%s', 'running', '', '')"
            .formatted(KeptStores.BOOK));
    try (SqliteLibrary library = open()) {
      List<String> taken = new ArrayList<>();
      Turns.Place place =
          library
              .turns()
              .join(
                  turn -> {
                    taken.add(turn.book());
                    assertThat(library.jobs().next(turn.book()).orElseThrow().id()).isEqualTo("j");
                    library.jobs().finish("j", Job.State.DONE, "Read");
                    return Turn.End.DONE;
                  });
      assertThat(place.one()).isTrue();
      assertThat(place.one()).isFalse();
      assertThat(taken).containsExactly(KeptStores.BOOK);
    }
  }

  private void sql(String statement) throws SQLException {
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + folder.resolve("barmap.db"));
        Statement one = connection.createStatement()) {
      one.executeUpdate(statement);
    }
  }

  @Test
  void aFolderOfANewerProgramIsRefused() throws IOException, SQLException {
    try (SqliteLibrary library = open()) {
      library.books().add("Saltmarsh", "Bass");
    }
    sql(
        "insert into flyway_schema_history (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success)"
            + " values (999, '999', 'later', 'SQL', 'V999__later.sql', '', 1, 1)");
    assertThatThrownBy(this::open)
        .isInstanceOf(IOException.class)
        .hasMessageContaining("newer barmap")
        .hasMessageContaining("version 999");
    sql("delete from flyway_schema_history where version = '999'");
    try (SqliteLibrary library = open()) {
      assertThat(library.books().all()).hasSize(1);
    }
  }

  @Test
  void aDamagedStoreIsNamedAndLeftAsItIs() throws IOException {
    try (SqliteLibrary library = open()) {
      String book = library.books().add("Saltmarsh", "Bass").id();
      library.readings().lay(book, library.readings().material(book), Made.book(3));
    }
    Path store = folder.resolve("barmap.db");
    byte[] whole = Files.readAllBytes(store);
    try (RandomAccessFile file = new RandomAccessFile(store.toFile(), "rw")) {
      for (long at = 4096; at + 4096 <= file.length(); at += 4096) {
        file.seek(at);
        file.write("driftwood".repeat(20).getBytes(StandardCharsets.US_ASCII));
      }
    }
    byte[] damaged = Files.readAllBytes(store);
    assertThatThrownBy(this::open)
        .isInstanceOf(IOException.class)
        .hasMessageContaining("barmap.db is damaged")
        .hasMessageContaining("Nothing was changed");
    assertThat(Files.readAllBytes(store)).isEqualTo(damaged);
    Files.writeString(store, "no store at all, but a text of some length");
    assertThatThrownBy(this::open).hasMessageContaining("barmap.db is damaged");
    Files.write(store, whole);
    try (SqliteLibrary library = open()) {
      assertThat(library.books().all()).hasSize(1);
    }
  }

  @Test
  void aPictureThatIsMissingOrCutShortIsNamedAtTheStart() throws IOException {
    Files.createDirectories(folder.resolve("books"));
    try (SqliteLibrary library = open()) {
      String book = library.books().add("Saltmarsh", "Bass").id();
      for (int i = 1; i <= 3; i++) {
        Path to = library.pages().folder(book).resolve(StartTest.name(i));
        Files.writeString(to, "a picture");
        library
            .pages()
            .add(
                book,
                List.of(
                    new Pages.NewPage("p", StartTest.name(i), 9, 9, java.util.Optional.empty())),
                java.util.Optional.empty());
      }
      Files.delete(library.pages().folder(book).resolve(StartTest.name(2)));
      Files.writeString(library.pages().folder(book).resolve(StartTest.name(3)), "a pic");
    }
    try (SqliteLibrary library = open()) {
      assertThat(library.keeping().notices())
          .containsExactly(
              "The picture of page 2 of Saltmarsh, Bass is missing.",
              "The picture of page 3 of Saltmarsh, Bass is damaged: it had 9 bytes and has 5.");
      assertThat(library.keeping().kept().missing()).hasSize(2);
    }
  }
}
