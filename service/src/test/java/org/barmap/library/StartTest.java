package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.library.sqlite.SqliteLibrary;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A start takes nothing away that a person didn't let go, whatever lies in the folder. */
class StartTest extends WithLibrary {

  @TempDir private Path elsewhere;

  static String name(int number) {
    return "u%032x.png".formatted(number);
  }

  private String book(int first, int pages) throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    for (int i = first; i < first + pages; i++) {
      Files.writeString(library.pages().folder(book).resolve(name(i)), "picture " + i);
      library
          .pages()
          .add(
              book,
              List.of(new Pages.NewPage("p.png", name(i), 10, 10, Optional.empty())),
              Optional.empty());
    }
    return book;
  }

  private Path in(String book, String file) {
    return folder.resolve("books").resolve(book).resolve(file);
  }

  private static List<Path> below(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      return all.filter(Files::isRegularFile).toList();
    }
  }

  @Test
  void whatIsNotOursStaysWhereItIs() throws IOException {
    String book = book(1, 1);
    Path outside = Files.writeString(elsewhere.resolve(name(7)), "outside");
    Path far = Files.createDirectory(elsewhere.resolve("abcdefghjk"));
    Path inFar = Files.writeString(far.resolve(name(8)), "far");
    Path plain = Files.writeString(folder.resolve("books/notes.txt"), "mine");
    Path beside = Files.writeString(in(book, "my scan.pdf"), "mine");
    Path nested = Files.createDirectories(in(book, "old/deeper")).resolve(name(9));
    Files.writeString(nested, "mine");
    Path holiday = Files.createDirectory(folder.resolve("books/holiday"));
    Path photo = Files.writeString(holiday.resolve("photo.jpg"), "mine");
    Path like = Files.createDirectory(folder.resolve("books/zyxwvutsrq"));
    Path inLike = Files.writeString(like.resolve("thesis.doc"), "mine");
    Path link = Files.createSymbolicLink(in(book, name(10)), outside);
    Path linked = Files.createSymbolicLink(folder.resolve("books/bcdefghjkm"), far);
    Path cached = Files.writeString(folder.resolve("cache/thesis.doc"), "mine");
    reopen();
    library.sweepDaily();
    library.sweep();
    assertThat(Stream.of(outside, inFar, plain, beside, nested, photo, inLike, cached))
        .allSatisfy(file -> assertThat(file).exists());
    assertThat(Stream.of(link, linked)).allSatisfy(l -> assertThat(l).isSymbolicLink());
    assertThat(in(book, name(1))).hasContent("picture 1");
  }

  @Test
  void whatIsOursAndNamedByNothingIsSetAsideAndSaid() throws IOException {
    String book = book(1, 1);
    Files.writeString(in(book, name(2)), "unnamed");
    Files.writeString(in(book, ".barmap123.part"), "half");
    reopen();
    assertThat(in(book, name(2))).doesNotExist();
    assertThat(in(book, name(1))).hasContent("picture 1");
    Path aside = folder.resolve("set-aside");
    assertThat(below(aside))
        .anySatisfy(f -> assertThat(f).hasContent("unnamed").hasFileName(name(2)))
        .anySatisfy(f -> assertThat(f).hasContent("half"))
        .anySatisfy(
            f ->
                assertThat(f)
                    .content()
                    .contains("books/" + book + "/" + name(2))
                    .contains("no page of a book is on it"));
  }

  @Test
  void aMissingDatabaseIsRefusedWhilePicturesAreThere() throws IOException {
    String book = book(1, 2);
    close();
    Path kept = elsewhere.resolve("barmap.db");
    Files.move(folder.resolve("barmap.db"), kept);
    assertThatThrownBy(this::open)
        .isInstanceOf(IOException.class)
        .hasMessageContaining("barmap.db is missing")
        .hasMessageContaining("page pictures");
    Files.createFile(folder.resolve("barmap.db"));
    assertThatThrownBy(this::open)
        .isInstanceOf(IOException.class)
        .hasMessageContaining("barmap.db is empty");
    assertThat(in(book, name(1))).hasContent("picture 1");
    Files.move(kept, folder.resolve("barmap.db"), StandardCopyOption.REPLACE_EXISTING);
    open();
    assertThat(library.pages().all(book)).hasSize(2);
  }

  @Test
  void aDatabaseOfOtherBooksIsRefused() throws IOException {
    String book = book(1, 2);
    close();
    try (SqliteLibrary other = SqliteLibrary.open(elsewhere, Clock.systemUTC())) {
      other.books().add("Flotsam", "Reed 2");
    }
    Path own = folder.resolve("own.db");
    Files.move(folder.resolve("barmap.db"), own);
    Files.copy(elsewhere.resolve("barmap.db"), folder.resolve("barmap.db"));
    assertThatThrownBy(this::open)
        .isInstanceOf(IOException.class)
        .hasMessageContaining("belongs to other books");
    assertThat(in(book, name(2))).hasContent("picture 2");
    Files.move(own, folder.resolve("barmap.db"), StandardCopyOption.REPLACE_EXISTING);
    open();
    assertThat(library.pages().all(book)).hasSize(2);
  }

  @Test
  void picturesThatAnOlderDatabaseDoesNotKnowComeBackWithTheNewerOne() throws IOException {
    String book = book(1, 1);
    close();
    Path older = Files.copy(folder.resolve("barmap.db"), elsewhere.resolve("older.db"));
    open();
    String second = book(5, 2);
    close();
    Path newer = Files.copy(folder.resolve("barmap.db"), elsewhere.resolve("newer.db"));
    Files.copy(older, folder.resolve("barmap.db"), StandardCopyOption.REPLACE_EXISTING);
    open();
    assertThat(in(book, name(1))).hasContent("picture 1");
    assertThat(below(folder.resolve("set-aside")))
        .anySatisfy(f -> assertThat(f).hasContent("picture 5"))
        .anySatisfy(f -> assertThat(f).hasContent("picture 6"));
    close();
    Files.copy(newer, folder.resolve("barmap.db"), StandardCopyOption.REPLACE_EXISTING);
    open();
    assertThat(in(second, name(5))).hasContent("picture 5");
    assertThat(in(second, name(6))).hasContent("picture 6");
  }

  @Test
  void anEmbeddedStoreIsOfOneProgram() {
    assertThatThrownBy(() -> SqliteLibrary.open(folder, clock))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("in use");
  }

  @Test
  void aSecondProgramStaysOutWithoutTheLockFileToo() throws IOException {
    Files.delete(folder.resolve("barmap.lock"));
    assertThatThrownBy(() -> SqliteLibrary.open(folder, clock))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("in use by another barmap");
    reopen();
    assertThat(library.books().all()).isEmpty();
  }

  @Test
  void theFolderIsClosedToOthersOfTheMachine() throws IOException {
    posix();
    String book = book(1, 1);
    assertThat(rights(folder)).isEqualTo("rwx------");
    close();
    Files.setPosixFilePermissions(folder, PosixFilePermissions.fromString("rwxr-xr-x"));
    Files.setPosixFilePermissions(
        folder.resolve("barmap.db"), PosixFilePermissions.fromString("rw-r--r--"));
    Files.setPosixFilePermissions(in(book, name(1)), PosixFilePermissions.fromString("rw-r--r--"));
    open();
    library.books().add("Flotsam", "Bass");
    assertThat(rights(folder)).isEqualTo("rwx------");
    for (Path file : below(folder)) {
      assertThat(rights(file)).as(file.toString()).isEqualTo("rw-------");
    }
    assertThat(rights(folder.resolve("books").resolve(book))).isEqualTo("rwx------");
    assertThat(rights(folder.resolve("cache"))).isEqualTo("rwx------");
  }

  @Test
  void aFolderWithThingsOfOthersStaysOpenAndOursInItIsClosed() throws IOException {
    posix();
    Path shared = Files.createDirectory(elsewhere.resolve("shared"));
    Files.setPosixFilePermissions(shared, PosixFilePermissions.fromString("rwxr-xr-x"));
    Path theirs = Files.writeString(shared.resolve("theirs.txt"), "x");
    Files.setPosixFilePermissions(theirs, PosixFilePermissions.fromString("rw-r--r--"));
    try (SqliteLibrary other = SqliteLibrary.open(shared, Clock.systemUTC())) {
      assertThat(other.books().all()).isEmpty();
      assertThat(rights(shared)).isEqualTo("rwxr-xr-x");
      assertThat(rights(theirs)).isEqualTo("rw-r--r--");
      assertThat(rights(shared.resolve("books"))).isEqualTo("rwx------");
      assertThat(rights(shared.resolve("barmap.db"))).isEqualTo("rw-------");
    }
  }

  private static void posix() {
    Assumptions.assumeTrue(
        FileSystems.getDefault().supportedFileAttributeViews().contains("posix"),
        "no POSIX rights here");
  }

  private static String rights(Path path) throws IOException {
    return PosixFilePermissions.toString(
        Files.getPosixFilePermissions(path, LinkOption.NOFOLLOW_LINKS));
  }
}
