package org.barmap.library.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.zip.ZipFile;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.BookCard;
import org.barmap.library.Disk;
import org.barmap.library.Library;
import org.barmap.library.Saved;
import org.barmap.library.Stores;
import org.barmap.library.Versioned;
import org.barmap.library.feed.Told;
import org.barmap.library.keep.BadBackupException;
import org.barmap.library.keep.RefusedFolderException;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresBackup;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sqlite.SqliteBackup;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.library.sqlite.copy.BackupFile;
import org.barmap.map.json.BarMapJson;
import org.gaul.s3proxy.junit.S3ProxyExtension;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import software.amazon.awssdk.services.s3.S3Client;

/** One backup, from either database and either place of pictures, and into either. */
class BackupAcrossTest {

  private static final String SECRET = "a secret of a hook";

  /** Whoever knows the address of a hook may often send to it: common practice in web hooks. */
  private static final String IN_ADDRESS = "token-0815";

  @RegisterExtension
  static final S3ProxyExtension PROXY =
      S3ProxyExtension.builder().withCredentials("saver", "a secret of the test").build();

  @TempDir private Path folder;

  @BeforeEach
  void bucket() {
    try (S3Client outside = Outside.client(PROXY)) {
      outside.createBucket(b -> b.bucket("saved"));
    }
  }

  /** Where a library is. */
  private record Place(Stores store, boolean apart, Path data) {

    PictureStore pictures() throws IOException {
      URI at = PROXY.getUri();
      String below = data.getFileName() + Integer.toHexString(data.hashCode()) + "/";
      return apart
          ? S3Pictures.open(
              new S3Address("saved", below, Optional.of(at), "us-east-1"),
              data,
              Outside.keys(PROXY))
          : new FolderPictures(data.resolve("books"));
    }

    DatabaseAddress database() {
      return DatabaseAddress.of(Stores.postgres(data), Optional.empty());
    }

    Library open() throws IOException {
      return store == Stores.POSTGRES
          ? PostgresLibrary.open(database(), data, pictures(), Clock.systemUTC())
          : SqliteLibrary.open(data, pictures(), Clock.systemUTC());
    }

    boolean isInRow(String book) {
      try (Connection connection = store.connect(data);
          Statement statement = connection.createStatement();
          ResultSet row =
              statement.executeQuery(
                  "select 1 from scheduled_tasks where task_instance = '" + book + "'")) {
        return row.next();
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }

    BackupFile.Saved save(Path to) throws IOException {
      try (PictureStore kept = pictures()) {
        return store == Stores.POSTGRES
            ? PostgresBackup.save(database(), kept, to, true)
            : SqliteBackup.save(data, kept, to, true);
      }
    }

    BackupFile.PutBack restore(Path file, boolean replace) throws IOException {
      try (PictureStore kept = pictures()) {
        return store == Stores.POSTGRES
            ? PostgresBackup.restore(file, database(), data, kept, replace, Clock.systemUTC())
            : SqliteBackup.restore(file, data, kept, replace, Clock.systemUTC());
      }
    }
  }

  private Path file() {
    return folder.resolve("all.zip");
  }

  private static String book(Library library, String title) throws IOException {
    String book = OnePicture.book(library, title);
    correct(library, book, 7);
    long revision = library.changes().find(book).orElseThrow().revision();
    library
        .changes()
        .add(book, revision, "", BarMapJson.mapper().createObjectNode().put("kind", "remind"));
    return book;
  }

  private static void correct(Library library, String book, int count) {
    Versioned<Draft> now = library.drafts().find(book).orElseThrow();
    String bar = now.value().map().bars().get(0).id();
    assertThat(
            library
                .drafts()
                .correct(book, now.revision(), "Ada", new BarCorrection.SetCount(bar, count)))
        .isInstanceOf(Saved.Done.class);
  }

  @ParameterizedTest
  @CsvSource({
    "SQLITE, false, POSTGRES, true",
    "POSTGRES, true, SQLITE, false",
    "POSTGRES, false, POSTGRES, false",
    "SQLITE, true, SQLITE, true"
  })
  void allOfItComesBack(Stores from, boolean fromApart, Stores to, boolean toApart)
      throws IOException {
    Place here = new Place(from, fromApart, folder.resolve("here"));
    Place there = new Place(to, toApart, folder.resolve("there"));
    try (Library library = here.open()) {
      String book = book(library, "Saltmarsh");
      library
          .feed()
          .hooks()
          .add(
              Optional.of(book),
              "https://me:" + IN_ADDRESS + "@prep.example.org:8443/to/" + IN_ADDRESS + "?k=1",
              SECRET,
              List.of(Told.CHANGED));
      correct(library, book, 5);
      String second = book(library, "Second in the list");
      String gone = book(library, "Flotsam");
      for (String out : List.of(second, gone)) {
        library.books().discard(out);
      }
      library.books().removeForGood(gone);
      library.sweep();
      library.jobs().add(book);
      BackupFile.Saved saved = here.save(file());
      assertThat(saved.flaws()).isEmpty();
      assertThat(saved.books()).isEqualTo(2);
      assertThat(saved.pictures()).isEqualTo(2);
      assertHoldsNoSecret();
      BackupFile.PutBack back = there.restore(file(), false);
      assertThat(back.waits()).isFalse();
      try (Library other = there.open()) {
        assertSame(library, other, book);
        assertThat(there.isInRow(book)).as("what waited to be read waits there too").isTrue();
        assertThat(other.books().bin()).hasSize(1);
        assertThat(Disk.holding(there.data(), "Flotsam")).isEmpty();
        correct(other, book, 3);
        assertThat(book(other, "Added later")).isNotEmpty();
        assertThat(other.books().all()).hasSize(2);
      }
    }
    try (Library other = there.open()) {
      assertThat(other.keeping().notices()).isEmpty();
      assertThat(other.keeping().kept().missing()).isEmpty();
    }
    assertThatThrownBy(() -> there.restore(file(), false))
        .isInstanceOf(RefusedFolderException.class)
        .hasMessageContaining("--replace");
  }

  private void assertHoldsNoSecret() throws IOException {
    Path out = Files.createDirectories(folder.resolve("unpacked"));
    try (ZipFile zip = new ZipFile(file().toFile());
        InputStream in = zip.getInputStream(zip.getEntry("barmap.db"))) {
      Files.copy(in, out.resolve("barmap.db"), StandardCopyOption.REPLACE_EXISTING);
    }
    assertThat(Disk.holding(out, SECRET)).isEmpty();
    assertThat(Disk.holding(out, IN_ADDRESS)).isEmpty();
    assertThat(Disk.holding(out, "Flotsam")).isEmpty();
    assertThat(Disk.holding(out, "Saltmarsh")).isNotEmpty();
  }

  private static void assertSame(Library one, Library other, String book) throws IOException {
    BookCard card = other.books().all().get(0);
    assertThat(card).isEqualTo(one.books().all().get(0));
    assertThat(other.drafts().find(book)).isEqualTo(one.drafts().find(book));
    assertThat(other.drafts().history(book)).isEqualTo(one.drafts().history(book));
    assertThat(other.changes().find(book)).isEqualTo(one.changes().find(book));
    assertThat(other.jobs().latest(book)).isEqualTo(one.jobs().latest(book));
    assertThat(other.pages().all(book)).isEqualTo(one.pages().all(book));
    assertThat(other.pages().picture(book, other.pages().all(book).get(0)))
        .hasContent("picture of Saltmarsh");
    var hook = other.feed().hooks().of(Optional.of(book)).get(0);
    assertThat(hook.off().orElseThrow()).contains("register it again");
    assertThat(hook.address()).as("which one it was").isEqualTo("https://prep.example.org:8443/");
    assertThat(other.feed().hooks().turn(hook.id(), Optional.empty()))
        .as("nothing is signed with no secret")
        .isFalse();
    assertThat(other.feed().hooks().find(hook.id()).orElseThrow().off()).isPresent();
    assertThat(other.feed().hooks().deliveries(hook.id()))
        .as("what waited is not sent a second time from here")
        .isNotEmpty()
        .allMatch(d -> d.state().name().equals("DEAD"));
  }

  @Test
  void aDatabaseInUseIsReplacedAtTheNextStartAndWhatWasThereIsKept() throws IOException {
    Place here = new Place(Stores.SQLITE, false, folder.resolve("here"));
    Place there = new Place(Stores.POSTGRES, false, folder.resolve("there"));
    String book;
    try (Library library = here.open()) {
      book = book(library, "Saltmarsh");
    }
    here.save(file());
    try (Library old = there.open()) {
      book(old, "Flotsam");
      assertThat(there.restore(file(), true).waits()).isTrue();
      book(old, "Meanwhile");
      try (Library beside = there.open()) {
        assertThat(beside.keeping().notices()).anyMatch(n -> n.contains("A backup waits"));
        assertThat(beside.books().all()).hasSize(2);
      }
    }
    try (Library library = there.open()) {
      assertThat(library.books().all()).extracting(BookCard::title).containsExactly("Saltmarsh");
      assertThat(library.pages().picture(book, library.pages().all(book).get(0)))
          .hasContent("picture of Saltmarsh");
      assertThat(library.keeping().notices()).anyMatch(n -> n.contains("A backup was put back"));
    }
    Path aside;
    try (var all = Files.list(there.data().resolve("set-aside"))) {
      aside = all.findFirst().orElseThrow();
    }
    try (Library kept = SqliteLibrary.open(aside, Clock.systemUTC())) {
      assertThat(kept.books().all())
          .extracting(BookCard::title)
          .containsExactlyInAnyOrder("Flotsam", "Meanwhile");
      assertThat(kept.keeping().kept().missing()).isEmpty();
    }
    assertThat(there.data().resolve("restoring")).doesNotExist();
  }

  /** Saves a book with a page wider than PostgreSQL's column takes. */
  private void saveOneTooWide(Place here) throws IOException, SQLException {
    try (Library library = here.open()) {
      book(library, "Saltmarsh");
    }
    try (Connection connection =
            DriverManager.getConnection("jdbc:sqlite:" + here.data().resolve("barmap.db"));
        Statement statement = connection.createStatement()) {
      statement.execute("update page set width = 1099511627776");
    }
    here.save(file());
  }

  @Test
  void whatTheDatabaseDoesNotTakeChangesNothing() throws IOException, SQLException {
    Place here = new Place(Stores.SQLITE, false, folder.resolve("here"));
    Place there = new Place(Stores.POSTGRES, true, folder.resolve("there"));
    saveOneTooWide(here);
    try (Library old = there.open()) {
      book(old, "Flotsam");
    }
    assertThatThrownBy(() -> there.restore(file(), true))
        .isInstanceOf(BadBackupException.class)
        .hasMessageContaining("out of range");
    try (Library old = there.open()) {
      assertThat(old.books().all()).extracting(BookCard::title).containsExactly("Flotsam");
      assertThat(old.keeping().kept().missing()).isEmpty();
    }
    try (PictureStore pictures = there.pictures()) {
      assertThat(pictures.sizes()).as("the picture of the one book there is").hasSize(1);
    }
    assertThat(there.data().resolve("restoring")).doesNotExist();
    assertThat(there.data().resolve("set-aside")).isEmptyDirectory();
  }

  /** A backup that waits and is found wanting at the start after: nothing of it stays anywhere. */
  @Test
  void whatWaitsAndIsNotTakenLeavesNoPictures() throws IOException, SQLException {
    Place here = new Place(Stores.SQLITE, false, folder.resolve("here"));
    Place there = new Place(Stores.POSTGRES, true, folder.resolve("there"));
    saveOneTooWide(here);
    try (Library old = there.open()) {
      book(old, "Flotsam");
      assertThat(there.restore(file(), true).waits()).isTrue();
    }
    try (Library old = there.open()) {
      assertThat(old.keeping().notices()).anyMatch(n -> n.contains("Nothing was put back"));
      assertThat(old.books().all()).extracting(BookCard::title).containsExactly("Flotsam");
    }
    try (PictureStore pictures = there.pictures()) {
      assertThat(pictures.sizes()).as("the picture of the one book there is").hasSize(1);
    }
    assertThat(there.data().resolve("restoring")).doesNotExist();
  }

  /** A kill while its pictures were taken to where they are kept. */
  @ParameterizedTest
  @CsvSource({"SQLITE", "POSTGRES"})
  void whatWasCutShortLeavesNoPictures(Stores store) throws IOException {
    Place there = new Place(store, true, folder.resolve("there"));
    String book;
    try (Library library = there.open()) {
      book = book(library, "Flotsam");
    }
    Path restoring = Files.createDirectories(there.data().resolve("restoring"));
    String file = "u" + "1".repeat(32) + ".png";
    try (PictureStore pictures = there.pictures()) {
      pictures.keep("abcdefghij", Files.writeString(restoring.resolve(file), "half a backup"));
      assertThat(pictures.sizes()).hasSize(2);
    }
    Files.writeString(restoring.resolve("brought"), "abcdefghij/" + file + "\n");
    try (Library library = there.open()) {
      assertThat(library.books().find(book)).isPresent();
      assertThat(library.keeping().kept().missing()).isEmpty();
    }
    try (PictureStore pictures = there.pictures()) {
      assertThat(pictures.sizes()).hasSize(1);
    }
    assertThat(restoring).doesNotExist();
  }

  /** What a person put others in the place of is kept, until a person lets it go. */
  @ParameterizedTest
  @CsvSource({"SQLITE, false", "SQLITE, true", "POSTGRES, false", "POSTGRES, true"})
  void picturesOfReplacedBooksGoWithWhatWasSetAside(Stores store, boolean waits)
      throws IOException {
    Place here = new Place(Stores.SQLITE, false, folder.resolve("here"));
    Place there = new Place(store, true, folder.resolve("there"));
    try (Library library = here.open()) {
      book(library, "Saltmarsh");
    }
    here.save(file());
    try (Library old = there.open()) {
      book(old, "Flotsam");
      if (waits) {
        assertThat(there.restore(file(), true).waits()).isTrue();
      }
    }
    if (!waits) {
      there.restore(file(), true);
    }
    try (Library library = there.open();
        PictureStore pictures = there.pictures()) {
      assertThat(library.books().all()).extracting(BookCard::title).containsExactly("Saltmarsh");
      assertThat(pictures.sizes()).hasSize(2);
      assertThat(library.keeping().setAside().bytes())
          .isGreaterThanOrEqualTo("picture of Flotsam".length());
      library.keeping().deleteSetAside();
      assertThat(pictures.sizes()).hasSize(1);
      assertThat(library.keeping().kept().missing()).isEmpty();
      assertThat(library.keeping().setAside().files()).isZero();
    }
  }

  @Test
  void aDatabaseOfANewerProgramIsRefusedAndNothingWaitsForTheNextStart()
      throws IOException, SQLException {
    Place here = new Place(Stores.SQLITE, false, folder.resolve("here"));
    Place there = new Place(Stores.POSTGRES, false, folder.resolve("there"));
    try (Library library = here.open();
        Library old = there.open()) {
      book(library, "Saltmarsh");
      book(old, "Flotsam");
    }
    here.save(file());
    String history = "flyway_schema_history";
    try (Connection connection = there.store().connect(there.data());
        Statement statement = connection.createStatement()) {
      statement.execute(
          "insert into %s select 9999, '9999', description, type, script, 1, installed_by,"
                  .formatted(history)
              + " installed_on, execution_time, success from %s where version = '19'"
                  .formatted(history));
    }
    assertThatThrownBy(() -> there.restore(file(), true))
        .isInstanceOf(RefusedFolderException.class)
        .hasMessageContaining("newer barmap");
    assertThat(there.data().resolve("restoring")).doesNotExist();
    try (Connection connection = there.store().connect(there.data());
        Statement statement = connection.createStatement()) {
      statement.execute("delete from %s where version = '9999'".formatted(history));
    }
    try (Library old = there.open()) {
      assertThat(old.books().all()).extracting(BookCard::title).containsExactly("Flotsam");
    }
  }

  @ParameterizedTest
  @CsvSource({"SQLITE", "POSTGRES"})
  void aBackupOfAnEarlierProgramIsPutBack(Stores store) throws IOException {
    try (InputStream kept =
        BackupAcrossTest.class.getResourceAsStream("/org/barmap/kept/2026-11-29/barbackup-1.zip")) {
      Files.copy(kept, file());
    }
    Place there = new Place(store, false, folder.resolve("there"));
    there.restore(file(), false);
    try (Library library = there.open()) {
      BookCard book = library.books().all().get(0);
      assertThat(book.title()).isEqualTo("Saltmarsh");
      assertThat(library.drafts().find(book.id()).orElseThrow().value().map().bars().get(0).count())
          .isEqualTo(7);
      assertThat(library.changes().find(book.id()).orElseThrow().value()).hasSize(1);
      assertThat(library.pages().picture(book.id(), library.pages().all(book.id()).get(0)))
          .hasContent("picture of Saltmarsh");
      assertThat(library.books().bin()).hasSize(1);
      assertThat(library.keeping().kept().missing()).isEmpty();
    }
  }
}
