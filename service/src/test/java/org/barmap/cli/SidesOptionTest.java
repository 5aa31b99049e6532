package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.cli.out.ExitCode;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code barmap plan} is told how the pages lie. */
class SidesOptionTest {

  @Test
  void theFirstPageIsAskedForAndTold(@TempDir Path folder) throws IOException {
    Path map = folder.resolve("map.json");
    BarMapJson.write(Books.book("1@p1@w:q_=_120 2@mr8 10@p2 11 12@p3 13@p4 14"), map);
    assertThat(Ran.barmap("plan", map).out())
        .contains("say how it lies")
        .contains("Turn from page 1 to 2")
        .contains("Turn from page 3 to 4");
    assertThat(Ran.barmap("plan", map, "--first-page", "left").out())
        .doesNotContain("say how it lies")
        .doesNotContain("Turn from page 1 to 2")
        .contains("Turn from page 2 to 3");
    assertThat(Ran.barmap("plan", map, "--first-page", "right", "--loose", "2").out())
        .contains("Turn from page 2 to 3") // the copy lies beside page 1, page 3 is on its back
        .doesNotContain("Turn from page 1 to 2")
        .doesNotContain("Turn from page 3 to 4");
    Ran wrong = Ran.barmap("plan", map, "--first-page", "above");
    assertThat(wrong.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(wrong.err()).contains("right, left or single-sheets");
  }
}
