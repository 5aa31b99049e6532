package org.barmap.extract;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.barmap.page.Bombs;
import org.barmap.page.PageResult;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A page that takes for ever costs its file. */
class PagesAheadTest {

  @TempDir private Path dir;

  @Test
  void whatTakesTooLongIsGivenUpAndTheNextFileIsOpened() throws IOException {
    Path text = Files.writeString(dir.resolve("text.png"), "no picture");
    Path slow = Files.write(dir.resolve("slow.pdf"), Bombs.slowShading(100));
    Path last = Files.writeString(dir.resolve("last.png"), "no picture either");
    List<String> found = new ArrayList<>();
    try (PagesAhead pages = new PagesAhead(List.of(text, slow, last), Duration.ofMillis(1500))) {
      while (pages.hasNext()) {
        PageResult page = pages.next();
        found.add(page.source() + " " + page.findings().get(0).code());
      }
    }
    assertThat(found)
        .containsExactly("text.png not-a-page", "slow.pdf too-slow", "last.png not-a-page");
  }
}
