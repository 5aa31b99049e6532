package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import java.util.zip.ZipFile;
import org.barmap.ShortLived;
import org.barmap.cli.out.ExitCode;
import org.barmap.edit.Made;
import org.barmap.library.BookCard;
import org.barmap.library.Disk;
import org.barmap.library.PageCard;
import org.barmap.library.picture.OnePicture;
import org.barmap.library.sqlite.SqliteLibrary;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code barmap backup} and {@code barmap restore}: all of a shelf in one file, and back. */
class BackupCommandTest {

  @TempDir private Path folder;

  private Path data() {
    return folder.resolve("data");
  }

  private Path file() {
    return folder.resolve("all.barbackup.zip");
  }

  private static SqliteLibrary open(Path data) throws IOException {
    return SqliteLibrary.open(data, Clock.systemUTC());
  }

  private static Ran barmap(String command, Path file, Path data, String... more) {
    Object[] all =
        Stream.concat(Stream.of(command, file, "--data", data), Stream.of(more)).toArray();
    return Ran.barmap(all);
  }

  private static void assertHolds(Path data, String title) throws IOException {
    try (SqliteLibrary library = open(data)) {
      BookCard book =
          library.books().all().stream().filter(b -> b.title().equals(title)).findFirst().get();
      assertThat(library.drafts().find(book.id()).orElseThrow().value().map().bars())
          .hasSameSizeAs(Made.book(3).bars());
      PageCard page = library.pages().all(book.id()).get(0);
      assertThat(library.pages().picture(book.id(), page)).hasContent("picture of " + title);
      assertThat(library.keeping().kept().missing()).isEmpty();
    }
  }

  private Path withFlotsam() throws IOException {
    Path other = folder.resolve("other");
    try (SqliteLibrary library = open(other)) {
      OnePicture.book(library, "Flotsam");
    }
    return other;
  }

  private void saveSaltmarsh() throws IOException {
    try (SqliteLibrary library = open(data())) {
      OnePicture.book(library, "Saltmarsh");
    }
    assertThat(barmap("backup", file(), data()).code()).isZero();
  }

  @Test
  void aShelfInUseIsBackedUpAndPutBackElsewhere() throws IOException {
    try (SqliteLibrary library = open(data())) {
      OnePicture.book(library, "Saltmarsh");
      String gone = OnePicture.book(library, "Flotsam");
      library.books().discard(gone);
      library.books().removeForGood(gone);
      Ran ran = barmap("backup", file(), data());
      assertThat(ran.code()).as(ran.err()).isZero();
      assertThat(ran.out()).contains("1 book").contains("1 picture").contains("hire agreement");
      OnePicture.book(library, "Later");
    }
    try (Stream<Path> beside = Files.list(folder)) {
      assertThat(beside.map(f -> f.getFileName().toString()))
          .containsExactlyInAnyOrder("data", "all.barbackup.zip");
    }
    assertThat(Disk.holding(folder.resolve("all.barbackup.zip"), "Flotsam")).isEmpty();
    Path other = folder.resolve("other");
    Ran ran = barmap("restore", file(), other);
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("1 book").contains("1 picture");
    assertHolds(other, "Saltmarsh");
    assertThat(Disk.holding(other, "Later")).isEmpty();
  }

  @Test
  void aBackupWithoutPicturesSaysSoAndHoldsNone() throws IOException {
    try (SqliteLibrary library = open(data())) {
      OnePicture.book(library, "Saltmarsh");
    }
    Ran ran = barmap("backup", file(), data(), "--no-pictures");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("no pictures");
    try (ZipFile zip = new ZipFile(file().toFile())) {
      assertThat(zip.stream().map(e -> e.getName()))
          .containsExactlyInAnyOrder("barmap.db", "manifest.json");
    }
    Path other = folder.resolve("other");
    assertThat(barmap("restore", file(), other).code()).isZero();
    try (SqliteLibrary library = open(other)) {
      BookCard book = library.books().all().get(0);
      assertThat(library.pages().all(book.id()).get(0).picture()).isEmpty();
      assertThat(library.drafts().find(book.id()).orElseThrow().value().map().bars()).isNotEmpty();
      assertThat(library.keeping().notices()).isEmpty();
    }
  }

  @Test
  void aFolderWithBooksIsReplacedOnlyWhenToldAndNothingOfItIsLost() throws IOException {
    saveSaltmarsh();
    Path other = withFlotsam();
    Ran refused = barmap("restore", file(), other);
    assertThat(refused.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(refused.err()).contains("1 book").contains("--replace");
    assertHolds(other, "Flotsam");
    Ran ran = barmap("restore", file(), other, "--replace");
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.out()).contains("set-aside");
    assertHolds(other, "Saltmarsh");
    assertThat(Disk.holding(other.resolve("set-aside"), "picture of Flotsam")).hasSize(1);
    assertThat(Disk.holding(other.resolve("set-aside"), "Flotsam").size()).isGreaterThan(1);
  }

  @Test
  void whatIsPutBackWhileTheShelfIsOpenTakesItsPlaceAtTheNextStart() throws IOException {
    saveSaltmarsh();
    Path other = withFlotsam();
    try (SqliteLibrary library = open(other)) {
      Ran ran = barmap("restore", file(), other, "--replace");
      assertThat(ran.code()).as(ran.err()).isZero();
      assertThat(ran.out()).contains("when barmap starts next");
      assertThat(library.books().all().get(0).title()).isEqualTo("Flotsam");
      OnePicture.book(library, "Meanwhile");
    }
    assertHolds(other, "Saltmarsh");
    assertThat(Disk.holding(other.resolve("set-aside"), "picture of Meanwhile")).hasSize(1);
    assertThat(other.resolve("restoring")).doesNotExist();
  }

  @Test
  void aDamagedBackupPutsNothingBack() throws IOException {
    saveSaltmarsh();
    byte[] whole = Files.readAllBytes(file());
    Path other = withFlotsam();
    Files.write(file(), java.util.Arrays.copyOf(whole, whole.length / 2));
    assertUnharmed(other, "no whole backup");
    Files.write(file(), whole);
    replaced("books/x/y", "x");
    assertUnharmed(other, "no whole backup");
    Files.write(file(), whole);
    try (ZipFile zip = new ZipFile(file().toFile())) {
      String name =
          zip.stream().map(e -> e.getName()).filter(n -> n.endsWith(".png")).findAny().get();
      replaced(name, "picture of Xaltmarsh");
    }
    assertUnharmed(other, "is not as it was saved");
    Files.writeString(file(), "no zip at all");
    assertUnharmed(other, "no whole backup");
    Files.delete(file());
    assertUnharmed(other, "there is no file");
  }

  private void replaced(String entry, String text) throws IOException {
    try (FileSystem zip = FileSystems.newFileSystem(file())) {
      Path at = zip.getPath(entry);
      Files.createDirectories(at.getParent());
      Files.writeString(at, text);
    }
  }

  private void assertUnharmed(Path other, String why) throws IOException {
    Ran ran = barmap("restore", file(), other, "--replace");
    assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(ran.err()).contains(why).doesNotContain("Exception");
    assertHolds(other, "Flotsam");
    assertThat(other.resolve("restoring")).doesNotExist();
    assertThat(other.resolve("set-aside")).doesNotExist();
  }

  @Test
  void aPutBackThatWasCutShortIsFinishedOrDroppedAtTheNextStart() throws IOException {
    try (SqliteLibrary library = open(data())) {
      OnePicture.book(library, "Saltmarsh");
    }
    Path other = withFlotsam();
    // as a kill leaves it while files are still being taken out of the backup
    Path restoring = Files.createDirectories(other.resolve("restoring/books"));
    Files.writeString(restoring.resolve("half"), "half");
    assertHolds(other, "Flotsam");
    assertThat(other.resolve("restoring")).doesNotExist();
    // as a kill leaves it when the old database was moved and the new one was not yet
    assertThat(barmap("backup", file(), data()).code()).isZero();
    try (SqliteLibrary library = open(other)) {
      assertThat(library.books().all()).hasSize(1);
      assertThat(barmap("restore", file(), other, "--replace").out()).contains("starts next");
    }
    String aside = Files.readString(other.resolve("restoring/complete")).strip();
    Path place = Files.createDirectories(other.resolve("set-aside").resolve(aside));
    Files.move(
        other.resolve("barmap.db"), place.resolve("barmap.db"), StandardCopyOption.ATOMIC_MOVE);
    assertHolds(other, "Saltmarsh");
    assertThat(Disk.holding(place, "picture of Flotsam")).hasSize(1);
  }

  @Test
  void aPutBackThatWasCutShortWhenAllThatWasThereHadMovedIsFinished() throws IOException {
    saveSaltmarsh();
    Path other = folder.resolve("other");
    try (SqliteLibrary library = open(other)) {
      OnePicture.book(library, "Flotsam");
      assertThat(barmap("restore", file(), other, "--replace").out()).contains("starts next");
    }
    String aside = Files.readString(other.resolve("restoring/complete")).strip();
    Path place = Files.createDirectories(other.resolve("set-aside").resolve(aside));
    for (String old : List.of("barmap.db", "books")) {
      Files.move(other.resolve(old), place.resolve(old), StandardCopyOption.ATOMIC_MOVE);
    }
    assertHolds(other, "Saltmarsh");
    assertThat(Disk.holding(place, "picture of Flotsam")).hasSize(1);
    assertThat(other.resolve("restoring")).doesNotExist();
  }

  @Test
  void aStartOrAnotherBackupDisturbsNoneThatIsBeingUnpacked() throws IOException {
    saveSaltmarsh();
    Path other = withFlotsam();
    Path half = Files.createDirectories(other.resolve("restoring/books")).resolve("half");
    Files.writeString(half, "half");
    Path unpacks = Files.createFile(other.resolve("restoring/unpacks"));
    try (FileChannel theirs = FileChannel.open(unpacks, StandardOpenOption.WRITE)) {
      assertThat(theirs.tryLock()).isNotNull();
      assertHolds(other, "Flotsam");
      Ran ran = barmap("restore", file(), other, "--replace");
      assertThat(ran.code()).isEqualTo(ExitCode.WRONG_USE);
      assertThat(ran.err()).contains("just being put back");
      assertThat(half).exists();
    }
    assertHolds(other, "Flotsam");
    assertThat(half).as("whoever unpacked it is gone").doesNotExist();
    assertThat(barmap("restore", file(), other, "--replace").code()).isZero();
    assertHolds(other, "Saltmarsh");
    assertThat(other.resolve("restoring")).doesNotExist();
  }

  @Test
  void aPictureThatIsMissingIsSaidAndTheRestIsSaved() throws IOException {
    try (SqliteLibrary library = open(data())) {
      String book = OnePicture.book(library, "Saltmarsh");
      String other = OnePicture.book(library, "Flotsam");
      Files.delete(library.pages().folder(book).resolve(OnePicture.NAME));
      Files.writeString(
          library.pages().folder(other).resolve(OnePicture.NAME), "picture of Flotsax");
    }
    Ran ran = barmap("backup", file(), data());
    assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(ran.err())
        .contains("Saltmarsh, Bass is missing")
        .contains("Flotsam, Bass is damaged");
    assertThat(file()).exists();
    assertThat(barmap("restore", file(), folder.resolve("other")).code()).isZero();
  }

  /** The limit on the size of files ({@code prlimit} of util-linux) stands for a full disk. */
  @Test
  void onAFullDiskTheBackupBeforeStays() throws IOException, InterruptedException {
    try (SqliteLibrary library = open(data())) {
      String book = OnePicture.book(library, "Saltmarsh");
      byte[] noise = new byte[900_000];
      new Random(1).nextBytes(noise);
      Files.write(library.pages().folder(book).resolve(OnePicture.NAME), noise);
    }
    Files.writeString(file(), "the backup before");
    Process process;
    List<String> command = new ArrayList<>(List.of("prlimit", "--fsize=600000"));
    command.addAll(
        ShortLived.java(
            "-Dbarmap.home=" + System.getProperty("barmap.home", "."),
            "-cp",
            System.getProperty("java.class.path"),
            Main.class.getName(),
            "backup",
            file().toString(),
            "--data",
            data().toString()));
    try {
      process = new ProcessBuilder(command).redirectErrorStream(true).start();
    } catch (IOException e) {
      process = Assumptions.abort("no prlimit here");
    }
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(said).isEqualTo(ExitCode.UNREADABLE);
    assertThat(said).contains("File too large").doesNotContain("Exception");
    assertThat(file()).hasContent("the backup before");
    try (Stream<Path> beside = Files.list(folder)) {
      assertThat(beside.map(f -> f.getFileName().toString()))
          .containsExactlyInAnyOrder("data", "all.barbackup.zip");
    }
  }

  @Test
  void whatIsNoPlainFileIsNotReplaced() throws IOException {
    try (SqliteLibrary library = open(data())) {
      OnePicture.book(library, "Saltmarsh");
    }
    Ran device = barmap("backup", Path.of("/dev/null"), data());
    assertThat(device.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(device.err()).contains("no plain file");
    Path real = Files.writeString(folder.resolve("real.zip"), "before");
    Files.createSymbolicLink(file(), real);
    assertThat(barmap("backup", file(), data()).code()).isZero();
    assertThat(file()).isSymbolicLink();
    assertThat(Files.size(real)).isGreaterThan(1000);
  }

  @Test
  void nothingIsMadeWhereThereIsNothingToSaveOrNoRoom() throws IOException {
    Ran none = barmap("backup", file(), data());
    assertThat(none.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(none.err()).contains("no books");
    assertThat(data()).doesNotExist();
    assertThat(file()).doesNotExist();
    try (SqliteLibrary library = open(data())) {
      OnePicture.book(library, "Saltmarsh");
    }
    Path nowhere = folder.resolve("nowhere/all.zip");
    assertThat(barmap("backup", nowhere, data()).code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(folder.resolve("nowhere")).doesNotExist();
    assertThatThrownBy(
            () -> {
              try (InputStream in = Files.newInputStream(file());
                  OutputStream out = OutputStream.nullOutputStream()) {
                in.transferTo(out);
              }
            })
        .isInstanceOf(IOException.class);
  }
}
