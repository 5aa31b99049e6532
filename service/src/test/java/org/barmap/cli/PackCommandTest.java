package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import org.barmap.cli.out.ExitCode;
import org.barmap.library.BookCard;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.pack.BadPackException;
import org.barmap.pack.PackOpener;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code barmap pack}, and what is left when opening such a file is cut short. */
class PackCommandTest {

  @TempDir private Path folder;

  private SqliteLibrary shelf(String name) throws IOException {
    return SqliteLibrary.open(folder.resolve(name), Clock.systemUTC());
  }

  @Test
  void aBookIsPackedByItsTitleAndOpenedElsewhere() throws IOException, BadPackException {
    Path map =
        Path.of(System.getProperty("barmap.home", ".."), "corpus/saltmarsh/saltmarsh.barmap.json");
    try (SqliteLibrary one = shelf("one")) {
      new PackOpener(one).open(map);
    }
    Path file = folder.resolve("out.zip");
    String data = folder.resolve("one").toString();
    Ran ran = Ran.barmap("pack", "saltmarsh", "--data", data, "--out", file.toString());
    assertThat(ran.code()).as(ran.err()).isEqualTo(ExitCode.DONE);
    assertThat(ran.out()).contains("bytes");
    try (SqliteLibrary two = shelf("two")) {
      BookCard book = new PackOpener(two).open(file);
      assertThat(book.title()).isEqualTo("Saltmarsh");
      assertThat(book.bars()).isGreaterThan(600);
    }
    Ran none = Ran.barmap("pack", "Flotsam", "--data", data);
    assertThat(none.code()).isEqualTo(ExitCode.NOTHING_FOUND);
    assertThat(none.err()).contains("Flotsam").contains("Saltmarsh");
  }

  @Test
  void aBookWhoseOpeningWasCutShortIsGoneAtTheNextStart() throws IOException {
    try (SqliteLibrary one = shelf("one")) {
      String whole = one.books().add("Whole", "Bass").id();
      String half = one.books().add("Half", "Bass").id();
      Files.createFile(one.pages().folder(half).resolve(".unfinished"));
      new PackOpener(one).removeUnfinished();
      assertThat(one.books().all().stream().map(BookCard::id).toList()).isEqualTo(List.of(whole));
      assertThat(one.books().bin()).isEmpty();
    }
  }
}
