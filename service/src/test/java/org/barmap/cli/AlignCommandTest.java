package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.barmap.plan.change.ChangesJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two parts on the command line; the bars are counted by hand. */
class AlignCommandTest {

  @TempDir private Path folder;

  private Path map(String name, String bars) throws IOException {
    BarMap map = Books.book(bars);
    return Files.writeString(folder.resolve(name), BarMapJson.write(map));
  }

  @Test
  void barsAreNamedAndChangesCarried() throws IOException {
    Path part = map("part.json", "%7 1 2 3 4@mA 5 6 7@mB 8 9");
    Path other = map("other.json", "%7 1 2 3 4 5 6@mA 7 8 9@mB 10 11");
    assertThat(Ran.barmap("align", part, other, "--numbers").out().lines())
        .containsExactly(
            "No. 7: 1 to 3 = 1 to 5 (not sure which is which)", "No. 7: 4 to 9 = 6 to 11");
    Path more = map("more.json", "%7 1 2 3 4 5 6@mA 7 8 9@mB 10 11 %8 x1 x2");
    assertThat(Ran.barmap("align", part, more, "--numbers").out())
        .contains("No. 8: only in more.json");
    assertThat(Ran.barmap("align", more, part, "--numbers").out())
        .contains("No. 8: only in more.json");
    assertThat(Ran.barmap("align", part, other, "--numbers", "--json").out())
        .contains("\"otherFirst\"");

    Path changes =
        Files.writeString(
            folder.resolve("changes.json"),
            "{\"format\":\"changes/1\",\"changes\":["
                + "{\"id\":\"a\",\"number\":\"7\",\"kind\":\"cut\",\"first\":\"5\",\"last\":\"8\"},"
                + "{\"id\":\"b\",\"number\":\"7\",\"kind\":\"cut\",\"first\":\"2\",\"last\":\"2\"}]}");
    Ran ran = Ran.barmap("align", part, other, "--carry", changes);
    assertThat(ran.code()).isZero();
    assertThat(ChangesJson.read(ran.out()).changes())
        .singleElement()
        .satisfies(c -> assertThat(c.says()).isEqualTo("cut 7 to 10"));
    assertThat(ran.err()).contains("Not carried: No. 7: cut 2.").contains("not sure");
  }
}
