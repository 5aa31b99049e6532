package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import org.barmap.cli.run.Home;
import org.barmap.cli.run.Logs;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Bad input: one line that says what and what to do, the right exit code, nothing lost. */
class BadInputTest {

  @TempDir private Path folder;

  @BeforeAll
  static void quiet() {
    Logs.quiet();
  }

  private static void assertOneLine(Ran ran, int code, String... parts) {
    assertThat(ran.code()).as(ran.err()).isEqualTo(code);
    assertThat(ran.complaints()).isNotEmpty();
    assertThat(ran.complaints().get(0)).contains(parts).hasSizeLessThan(300);
    assertThat(ran.err()).doesNotContain("\tat ").doesNotContain("Exception");
  }

  @Test
  void filesThatAreNoPages() throws IOException {
    assertOneLine(Ran.barmap("read", BadFiles.empty(folder)), 3, "empty.png", "empty", "copy");
    assertOneLine(Ran.barmap("read", BadFiles.text(folder)), 3, "text.png", "no PNG", "convert");
    assertOneLine(
        Ran.barmap("read", BadFiles.truncatedJpeg(folder)), 3, "truncated.jpg", "breaks off");
    assertOneLine(Ran.barmap("read", BadFiles.hugePng(folder)), 3, "30000 x 30000", "300 dpi");
    assertOneLine(Ran.barmap("read", BadFiles.encryptedPdf(folder)), 3, "password", "without");
    assertOneLine(Ran.barmap("read", BadFiles.longPdf(folder)), 3, "3000 pages", "split it");
    assertOneLine(Ran.barmap("read", folder.resolve("nowhere.png")), 3, "nowhere", "check");
    Path none = Files.createDirectory(folder.resolve("none"));
    assertOneLine(Ran.barmap("read", none), 3, "none", "no PNG, JPEG, TIFF or PDF");
  }

  @Test
  void picturesWithoutMusicAreNothingFound() throws IOException {
    Ran table = Ran.barmap("read", BadFiles.table(folder), "--out", folder.resolve("t.json"));
    assertOneLine(table, 4, "table.jpg", "no staves");
    Ran white = Ran.barmap("read", BadFiles.whitePage(folder), "--out", folder.resolve("w.json"));
    assertOneLine(white, 4, "white.png");
  }

  @Test
  void theOtherPagesAreStillRead() throws IOException {
    Path page = Home.demoBook().resolve("page-01.png");
    Path out = folder.resolve("map.json");
    Ran ran = Ran.barmap("read", BadFiles.text(folder), page, "--out", out, "--title", "Ebb");
    assertOneLine(ran, 3, "text.png");
    BarMap map = BarMapJson.read(out);
    assertThat(map.pages()).hasSize(1);
    assertThat(map.bars()).isNotEmpty();
    assertThat(map.book().title()).isEqualTo("Ebb");
  }

  @Test
  void aFileNobodyMayRead() throws IOException {
    Path file = BadFiles.whitePage(folder);
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("---------"));
    Ran ran = Files.isReadable(file) ? Ran.withoutRights("read", file) : Ran.barmap("read", file);
    assertOneLine(ran, 3, "white.png", "may not be read");
  }

  @Test
  void changedJson() throws IOException {
    Path map = Home.demoBook().resolve("saltmarsh.barmap.json");
    String text = Files.readString(map);
    Path cut = Files.writeString(folder.resolve("cut.json"), text.substring(0, 5000));
    assertOneLine(Ran.barmap("plan", cut), 3, "cut.json is no bar map", "not JSON");
    Path wrong =
        Files.writeString(
            folder.resolve("wrong.json"), text.replaceFirst("\"count\" *: *1", "\"count\":-1"));
    assertOneLine(Ran.barmap("plan", wrong), 3, "wrong.json is no bar map", "count");
    Path other = Files.writeString(folder.resolve("other.json"), "{\"hello\":1}");
    assertOneLine(Ran.barmap("plan", other), 3, "other.json is no bar map");
    assertOneLine(
        Ran.barmap("plan", map, "--changes", other), 3, "other.json is no list of changes");
    assertOneLine(Ran.barmap("plan", folder.resolve("none.json")), 3, "there is no file");
    assertOneLine(Ran.barmap("plan", BadFiles.hugePng(folder)), 3, "UTF-8");
    assertThat(Files.readString(map)).isEqualTo(text);
  }

  @Test
  void wrongUse() {
    assertOneLine(Ran.barmap(), 2, "Say what to do");
    assertOneLine(Ran.barmap("sing"), 2, "sing");
    assertOneLine(Ran.barmap("read"), 2, "FILE-OR-FOLDER");
    assertOneLine(Ran.barmap("serve", "--port", "99999"), 2, "1 to 65535");
    assertOneLine(Ran.barmap("serve", "--port", "many"), 2, "--port");
    assertOneLine(Ran.barmap("bench", "sleep"), 2, "sleep");
    assertOneLine(Ran.barmap("evaluate", folder.resolve("nowhere")), 3, "there is no folder");
    assertOneLine(Ran.barmap("evaluate", folder), 4, "holds no truth");
  }

  @Test
  void everyCommandHasHelp() {
    for (String command : Main.commandLine().getSubcommands().keySet()) {
      Ran help = Ran.barmap(command, "--help");
      assertThat(help.code()).isZero();
      assertThat(help.out()).contains("Usage: barmap " + command);
    }
    assertThat(Ran.barmap("--help").out()).contains("Exit codes");
    assertThat(Ran.barmap("--version").out()).startsWith("barmap ");
  }

  @Test
  void aPortInUse() throws IOException {
    try (ServerSocket taken = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      Ran ran =
          Ran.barmap("serve", "--data", folder.resolve("data"), "--port", taken.getLocalPort());
      assertOneLine(ran, 2, "port " + taken.getLocalPort() + " is in use", "--port");
    }
  }

  @Test
  void aDataFolderThatIsAFile() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "x");
    assertOneLine(Ran.barmap("serve", "--data", file), 3, "data folder", "choose another");
    assertThat(file).hasContent("x");
  }

  @Test
  void aDataFolderThatNobodyMayWriteTo() throws IOException {
    Path data = Files.createDirectory(folder.resolve("shut"));
    Files.setPosixFilePermissions(data, PosixFilePermissions.fromString("r-x------"));
    Ran ran = Ran.withoutRights("serve", "--data", data);
    assertOneLine(ran, 3, "data folder", "may not be written to", "choose another");
    Path all = Files.createDirectory(folder.resolve("open"));
    assertThat(Ran.barmap("pack", "none", "--data", all).code()).isEqualTo(4);
    Ran backup = Ran.withoutRights("backup", data.resolve("all.zip"), "--data", all);
    assertOneLine(backup, 3, "may not be");
    assertThat(data).isEmptyDirectory();
  }

  /** A disk of 16 KiB stands for a full one. */
  @Test
  void aFullDisk() throws IOException {
    Path small = folder.resolve("small");
    Files.createDirectory(small);
    assumeTrue(mount(small), "only root may mount a small disk");
    try {
      Path page = Home.demoBook().resolve("page-01.png");
      Path out = small.resolve("map.json");
      Ran ran = Ran.barmap("read", page, "--out", out);
      assertOneLine(ran, 3, "disk is full", "make room");
      assertThat(out).doesNotExist();
      assertThat(small).isEmptyDirectory();
      assertOneLine(
          Ran.barmap("serve", "--data", small.resolve("data")), 3, "disk is full", "make room");
    } finally {
      run("umount", "-l", small.toString());
    }
  }

  private static boolean mount(Path at) throws IOException {
    return run("mount", "-t", "tmpfs", "-o", "size=16k", "tmpfs", at.toString());
  }

  private static boolean run(String... command) throws IOException {
    try {
      return new ProcessBuilder(command).redirectErrorStream(true).start().waitFor() == 0;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    }
  }
}
