package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A plan with the director's bars beside the part's; counted by hand: from A on the director's book
 * is two bars ahead, and before A it is open which bars are which.
 */
class PlanNumbersTest {

  @TempDir private Path folder;
  private Path part = Path.of("");
  private Path director = Path.of("");

  @BeforeEach
  void write() throws IOException {
    part = map("part.json", "%7 1 2 3 4@mA 5@fermata 6 7@mB 8@mr8 16");
    director = map("director.json", "%7 1 2 3 4 5 6@mA 7 8 9@mB 10 11 12 13 14 15 16 17 18");
  }

  private Path map(String name, String bars) throws IOException {
    return Files.writeString(folder.resolve(name), BarMapJson.write(Books.book(bars)));
  }

  @Test
  void bothNumbersArePrintedAndChangesGoByEither() throws IOException {
    Ran ran = Ran.barmap("plan", part, "--beside", director);
    assertThat(ran.out())
        .contains("Rest of 8 bars from bar 8 [Double Bass 10] to bar 15 [Double Bass 17],");
    Ran said =
        Ran.barmap(
            "plan", part, "--beside", director, "--numbers", "director", "--say", "cut 7 to 8");
    assertThat(said.code()).isZero();
    assertThat(said.out())
        .isEqualTo(Ran.barmap("plan", part, "--beside", director, "--say", "cut 5 to 6").out())
        .contains("2 bars, 8 beats cut");
    Path changes =
        Files.writeString(
            folder.resolve("changes.json"),
            "{\"format\":\"changes/1\",\"changes\":[{\"id\":\"a\",\"number\":\"7\","
                + "\"kind\":\"cut\",\"first\":\"7\",\"last\":\"8\"}]}");
    assertThat(
            Ran.barmap(
                    "plan",
                    part,
                    "--beside",
                    director,
                    "--numbers",
                    "director",
                    "--changes",
                    changes)
                .out())
        .isEqualTo(said.out());
  }

  @Test
  void whatHasNoSureBarIsRefusedAndNamed() throws IOException {
    Ran ran =
        Ran.barmap(
            "plan", part, "--beside", director, "--numbers", "director", "--say", "cut 2 to 3");
    assertThat(ran.code()).isNotZero();
    assertThat(ran.out()).isEmpty();
    assertThat(ran.err()).contains("cut 2 to 3").contains("not sure");
    assertThat(Ran.barmap("plan", part, "--numbers", "director").err()).contains("--beside");
    assertThat(Ran.barmap("plan", part, "--numbers", "theirs").code()).isNotZero();
    assertThat(Ran.barmap("plan", part, "--say", "perhaps shorter somewhere, cut").code())
        .isNotZero();
  }
}
