package org.barmap.page.pixel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** No other account has a hand in what is loaded into the program. */
class LibraryFolderTest {

  /** Any account but this one and the machine's owner. */
  private static final int STRANGER = 12345;

  private static final int STICKY = 01777;

  @TempDir private Path folder;

  @BeforeEach
  void onlyWhereThereAreSuchRights() {
    assumeTrue(folder.getFileSystem().supportedFileAttributeViews().contains("unix"));
  }

  private static void rights(Path of, String rights) throws IOException {
    Files.setPosixFilePermissions(of, PosixFilePermissions.fromString(rights));
  }

  private static void give(Path away) {
    try {
      Files.setAttribute(away, "unix:uid", STRANGER);
    } catch (IOException e) {
      assumeTrue(false, "only root gives a folder to another account");
    }
  }

  @Test
  void whatOthersCanWriteIsNotSafe() throws IOException {
    Path above = Files.createDirectory(folder.resolve("above"));
    Path in = Files.createDirectory(above.resolve("in"));
    rights(in, "rwx------");
    assertThat(LibraryFolder.isSafe(in)).isTrue();
    rights(above, "rwxrwxrwx");
    assertThat(LibraryFolder.isSafe(in)).as("another one can be put in its place").isFalse();
    Files.setAttribute(above, "unix:mode", STICKY);
    assertThat(LibraryFolder.isSafe(in)).as("as the temporary folder is").isTrue();
    assertThat(LibraryFolder.isSafe(above)).as("others add to it").isFalse();
    rights(in, "rwxr-xrwx");
    assertThat(LibraryFolder.isSafe(in)).isFalse();
    Path link = Files.createSymbolicLink(folder.resolve("link"), in);
    assertThat(LibraryFolder.isSafe(link)).as("where it leads counts").isFalse();
    assertThat(LibraryFolder.isSafe(folder.resolve("none"))).isFalse();
  }

  @Test
  void aFolderOfAnotherAccountIsNotTaken() throws IOException {
    Path mine = LibraryFolder.passing(folder).orElseThrow();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(mine)))
        .isEqualTo("rwx------");
    assertThat(LibraryFolder.passing(folder)).as("once more").contains(mine);
    rights(mine, "rwxr-xr-x");
    assertThat(LibraryFolder.passing(folder)).as("somebody opened it").isEmpty();
    Files.delete(mine);
    Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
    Files.createSymbolicLink(mine, elsewhere);
    assertThat(LibraryFolder.passing(folder)).as("a link").isEmpty();
    Files.delete(mine);
    Files.createDirectory(mine);
    rights(mine, "rwx------");
    give(mine);
    assertThat(LibraryFolder.passing(folder)).as("made by another account").isEmpty();
  }

  @Test
  void aHomeIsTakenWhereItCanBeTrusted() throws IOException {
    Path home = Files.createDirectory(folder.resolve("home"));
    rights(home, "rwxr-xr-x");
    assertThat(LibraryFolder.inHome(home, ".javacpp", "cache"))
        .contains(home.resolve(".javacpp").resolve("cache").toRealPath());
    rights(home, "rwxrwxrwx");
    assertThat(LibraryFolder.inHome(home, ".javacpp", "cache")).isEmpty();
    assertThat(LibraryFolder.inHome(Path.of("?"), ".javacpp", "cache"))
        .as("of an account without a name, whatever folder one is in")
        .isEmpty();
    assertThat(Path.of("?")).doesNotExist();
    rights(home, "rwxr-xr-x");
    give(home);
    assertThat(LibraryFolder.inHome(home, ".javacpp", "cache")).isEmpty();
  }
}
