package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Logs;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A score given instead of pages. */
class ScoreInTest {

  @TempDir private Path folder;

  @BeforeAll
  static void quiet() {
    Logs.quiet();
  }

  private Path score() throws IOException {
    String part =
        "<measure number=\"1\"><note><rest/><duration>4</duration></note></measure>"
            + "<measure number=\"2\"><barline location=\"right\"><repeat direction=\"backward\"/>"
            + "</barline></measure></part>";
    return Files.writeString(
        folder.resolve("score.musicxml"),
        "<score-partwise><part-list><score-part id=\"P1\"><part-name>Flute</part-name></score-part>"
            + "<score-part id=\"P2\"><part-name>Bass</part-name></score-part></part-list>"
            + "<part id=\"P1\">"
            + part
            + "<part id=\"P2\">"
            + part
            + "</score-partwise>");
  }

  @Test
  void onePartBecomesABook() throws IOException {
    Path out = folder.resolve("book.json");
    Ran ran = Ran.barmap("read", score(), "--part", "Bass", "--title", "Saltmarsh", "--out", out);
    assertThat(ran.code()).as(ran.err()).isZero();
    BarMap map = BarMapJson.read(out);
    assertThat(map.book().title()).isEqualTo("Saltmarsh");
    assertThat(map.book().part()).isEqualTo("Bass");
    assertThat(map.writtenBars()).isEqualTo(2);
    assertThat(ran.err()).contains("2 bars", "no place for notes");
    assertThat(Ran.barmap("plan", out).code()).isZero();
  }

  @Test
  void severalPartsAreNamedWithTheirPlaces() throws IOException {
    Ran none = Ran.barmap("read", score());
    assertThat(none.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(none.complaints().get(0)).contains("--part", "1 Flute, 2 Bass");
    assertThat(Ran.barmap("read", score(), "--part", "2").code()).isZero();
    Ran wrong = Ran.barmap("read", score(), "--part", "Tuba");
    assertThat(wrong.code()).isEqualTo(ExitCode.WRONG_USE);
    Path html = Files.writeString(folder.resolve("a.xml"), "<html/>");
    Ran broken = Ran.barmap("read", html);
    assertThat(broken.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(broken.complaints().get(0)).contains("a.xml", "no MusicXML score");
  }
}
