package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Logs;
import org.barmap.map.json.BarMapJson;
import org.barmap.work.DrawnPage;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A library from the command line, read in the child process. */
class ReadBooksTest {

  @TempDir private Path folder;

  @BeforeAll
  static void quiet() {
    Logs.quiet();
  }

  @Test
  void aLibraryIsReadBesideItAndTheExitCodeSaysWhatFailed() throws IOException {
    Path library = Files.createDirectory(folder.resolve("library"));
    Path book = Files.createDirectories(library.resolve("Show/Bass"));
    DrawnPage.draw(book.resolve("p.png"), 3, 3);
    Ran first = Ran.barmap("read", library, "--books");
    assertThat(first.code()).as(first.err()).isZero();
    assertThat(first.err()).contains("1 of 1", "Show/Bass");
    assertThat(first.out()).contains("1 book: 1 read, 0 unchanged, 0 not read");
    assertThat(BarMapJson.read(folder.resolve("library-maps/Show/Bass.barmap.json")).bars())
        .isNotEmpty();
    Files.writeString(library.resolve("bad.pdf"), "no PDF");
    Ran second = Ran.barmap("read", library, "--books");
    assertThat(second.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(second.out())
        .contains("NOT READ", "    bad.pdf", "2 books: 0 read, 1 unchanged, 1 not read");
  }

  @Test
  void whatDoesNotFitIsSaidAtOnce() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "");
    Path none = Files.createDirectory(folder.resolve("none"));
    assertThat(Ran.barmap("read", none, none, "--books").code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(Ran.barmap("read", file, "--books").code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(Ran.barmap("read", none, "--books", "--out", file).code())
        .isEqualTo(ExitCode.WRONG_USE);
    Ran title = Ran.barmap("read", none, "--books", "--title", "x");
    assertThat(title.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(title.complaints().get(0)).contains("--title is for one book");
    assertThat(Ran.barmap("read", none, "--books").code()).isEqualTo(ExitCode.NOTHING_FOUND);
  }
}
