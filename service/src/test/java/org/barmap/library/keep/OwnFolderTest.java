package org.barmap.library.keep;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.barmap.ShortLived;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a process that was killed left in the temporary folder goes, and nothing else. */
class OwnFolderTest {

  private static final String PREFIX = "barmap-engine-";

  @TempDir private Path temporary;

  /** Makes one with a page in it, says so and waits to be killed. */
  static final class Keeps {
    private Keeps() {}

    public static void main(String[] args) throws IOException {
      OwnFolder own = OwnFolder.make(Path.of(args[0]), PREFIX);
      Files.createDirectories(own.path().resolve("pages"));
      Files.writeString(own.path().resolve("pages/1.png"), "a rented page");
      System.out.println(own.path());
      if (System.in.read() < 0) {
        throw new IOException("nobody is there any more");
      }
    }
  }

  private Process keeps() throws IOException {
    return new ProcessBuilder(
            ShortLived.java(
                "-cp",
                System.getProperty("java.class.path"),
                Keeps.class.getName(),
                temporary.toString()))
        .redirectError(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  @Test
  void whatAKilledProcessLeftGoesAndALivingOneKeepsItsOwn() throws IOException {
    Process process = keeps();
    Path left = Path.of(process.inputReader(StandardCharsets.UTF_8).readLine());
    assertThat(OwnFolder.sweep(temporary, PREFIX)).as("it lives").isZero();
    assertThat(left.resolve("pages/1.png")).exists();
    process.destroyForcibly().onExit().join();
    assertThat(left).exists();
    try (OwnFolder mine = OwnFolder.make(temporary, PREFIX)) {
      assertThat(OwnFolder.sweep(temporary, PREFIX)).isEqualTo(1);
      assertThat(left).doesNotExist();
      assertThat(mine.path()).exists();
      assertThat(OwnFolder.sweep(temporary, PREFIX)).as("this process lives").isZero();
      assertThat(mine.path()).isNotEmptyDirectory();
    }
    assertThat(temporary).isEmptyDirectory();
  }

  @Test
  void whatIsNotOursOrCanNotBeToldStays() throws IOException {
    Path older = Files.createDirectory(temporary.resolve(PREFIX + "17"));
    Files.writeString(older.resolve("page.png"), "of a program that locked nothing");
    Path named = Files.createDirectory(temporary.resolve(PREFIX + "mine"));
    Files.createFile(named.resolve(".barmap-owner"));
    Path elsewhere = Files.createDirectory(temporary.resolve("elsewhere"));
    Files.createFile(elsewhere.resolve(".barmap-owner"));
    Files.createSymbolicLink(temporary.resolve(PREFIX + "18"), elsewhere);
    Path linked = Files.createDirectory(temporary.resolve(PREFIX + "19"));
    Files.createSymbolicLink(linked.resolve(".barmap-owner"), elsewhere.resolve(".barmap-owner"));
    assertThat(OwnFolder.sweep(temporary, PREFIX)).isZero();
    for (Path stays : List.of(older.resolve("page.png"), named, elsewhere, linked)) {
      assertThat(stays).exists();
    }
  }

  @Test
  void aFolderOfAnotherAccountStays() throws IOException {
    assumeTrue(System.getProperty("user.name", "").equals("root"), "only root gives folders away");
    Path theirs = Files.createDirectory(temporary.resolve(PREFIX + "20"));
    Files.createFile(theirs.resolve(".barmap-owner"));
    Files.setOwner(
        theirs,
        theirs.getFileSystem().getUserPrincipalLookupService().lookupPrincipalByName("nobody"));
    assertThat(OwnFolder.sweep(temporary, PREFIX)).isZero();
    assertThat(theirs).exists();
  }
}
