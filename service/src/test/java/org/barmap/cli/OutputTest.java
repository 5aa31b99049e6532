package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayOutputStream;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Home;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What can't be written is said, and what lies where it is written stays what it is. */
class OutputTest {

  /** A device of Linux that is always full. */
  private static final Path FULL = Path.of("/dev/full");

  @TempDir private Path folder;

  private static Path map() {
    return Home.demoBook().resolve("saltmarsh.barmap.json");
  }

  /** Runs a command whose answer goes to a stream. */
  private static Ran to(OutputStream out, Object... args) {
    StringWriter err = new StringWriter();
    String[] words = Stream.of(args).map(String::valueOf).toArray(String[]::new);
    int code = Main.run(words, out, new PrintWriter(err));
    return new Ran(code, "", err.toString());
  }

  private static void assertSaid(Ran ran) {
    assertThat(ran.err()).contains("disk is full").doesNotContain("Exception");
    assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
  }

  @Test
  void anAnswerToAFullDiskIsNoSuccess() throws IOException {
    assumeTrue(Files.exists(FULL), "a full device is needed");
    Path blank = BadFiles.whitePage(folder);
    for (Object[] command :
        new Object[][] {
          {"plan", map()}, {"plan", map(), "--json"}, {"export", map()}, {"align", map(), map()},
          {"export", map(), "--as", "csv"}, {"read", blank}, {"--help"}, {"plan", "--help"}
        }) {
      try (OutputStream full = new FileOutputStream(FULL.toFile())) {
        assertSaid(to(full, command));
      }
    }
    assertSaid(Ran.barmap("export", map(), "--out", FULL));
    assertThat(Files.isRegularFile(FULL)).as("it is still a device").isFalse();
  }

  /** {@code barmap plan MAP | head} ends early because somebody wants it so. */
  @Test
  void aReaderWhoLeavesIsToldNothing() throws IOException {
    OutputStream gone =
        new OutputStream() {
          @Override
          public void write(int b) throws IOException {
            throw new IOException("Broken pipe");
          }
        };
    Ran ran = to(gone, "plan", map());
    assertThat(ran.err()).isEmpty();
    assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    assertThat(to(whole, "plan", map()).code()).isEqualTo(ExitCode.DONE);
    assertThat(whole.toString(StandardCharsets.UTF_8)).contains("bars");
  }

  @Test
  void aPipeStaysAPipe() throws Exception {
    Path pipe = folder.resolve("pipe");
    assumeTrue(new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor() == 0, "mkfifo");
    CompletableFuture<String> read = CompletableFuture.supplyAsync(() -> text(pipe));
    Ran ran = Ran.barmap("read", BadFiles.whitePage(folder), "--out", pipe);
    assertThat(ran.code()).isEqualTo(ExitCode.NOTHING_FOUND);
    assertThat(Files.isRegularFile(pipe)).isFalse();
    assertThat(read.join()).contains("barmap/1");
  }

  @Test
  void aLinkStaysALinkAndAFileKeepsItsRights() throws IOException {
    Path file = Files.writeString(folder.resolve("kept.json"), "old");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r--r--"));
    Path link = Files.createSymbolicLink(folder.resolve("link.json"), Path.of("kept.json"));
    Ran ran = Ran.barmap("read", BadFiles.whitePage(folder), "--out", link);
    assertThat(ran.code()).isEqualTo(ExitCode.NOTHING_FOUND);
    assertThat(Files.isSymbolicLink(link)).isTrue();
    assertThat(text(file)).contains("barmap/1");
    assertThat(rights(file)).isEqualTo("rw-r--r--");
    Path dangling = Files.createSymbolicLink(folder.resolve("new.csv"), Path.of("made.csv"));
    assertThat(Ran.barmap("export", map(), "--as", "csv", "--out", dangling).code()).isZero();
    assertThat(Files.isSymbolicLink(dangling)).isTrue();
    assertThat(folder.resolve("made.csv")).isRegularFile();
  }

  @Test
  void aNewFileHasTheRightsOfNewFiles() throws IOException {
    Path plain = Files.writeString(folder.resolve("plain"), "made as everybody makes files");
    Path blank = BadFiles.whitePage(folder);
    Path out = folder.resolve("map.json");
    Ran ran = Ran.barmap("read", blank, "--out", out);
    assertThat(ran.code()).as(ran.err()).isEqualTo(ExitCode.NOTHING_FOUND);
    assertThat(rights(out)).isEqualTo(rights(plain));
    try (Stream<Path> left = Files.list(folder)) {
      assertThat(left).containsExactlyInAnyOrder(plain, blank, out);
    }
  }

  /** And that is said before the pages are read. */
  @Test
  void noFolderIsMadeUnasked() {
    Path out = folder.resolve("no").resolve("such").resolve("map.json");
    Ran ran = Ran.barmap("read", folder.resolve("nothing.png"), "--out", out);
    assertThat(ran.err()).contains("no folder").doesNotContain("nothing.png");
    assertThat(ran.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(folder.resolve("no")).doesNotExist();
    assertThat(Ran.barmap("export", map(), "--out", out).err()).contains("no folder");
    assertThat(Ran.barmap("export", map(), "--out", folder).err()).contains("is a folder");
  }

  private static String text(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private static String rights(Path file) throws IOException {
    return PosixFilePermissions.toString(
        Files.getPosixFilePermissions(file, LinkOption.NOFOLLOW_LINKS));
  }
}
