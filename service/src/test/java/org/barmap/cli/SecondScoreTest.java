package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Home;
import org.barmap.cli.run.Logs;
import org.barmap.exchange.musicxml.write.MusicXmlWriter;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A full score of three parts beside a page: chosen by name, by the book's part, or not at all. The
 * demo's first page; its truth is the oracle.
 */
class SecondScoreTest {

  @TempDir private Path folder;

  @BeforeAll
  static void quiet() {
    Logs.quiet();
  }

  /** The page's truth with its first long rest one bar longer, under two other parts. */
  private Path score() throws IOException {
    BarMap truth = BarMapJson.read(Home.demoBook().resolve("page-01.json"));
    List<Bar> bars = new ArrayList<>(truth.bars());
    int at = 0;
    while (bars.get(at).count() == 1) {
      at++;
    }
    bars.set(at, bars.get(at).toBuilder().count(bars.get(at).count() + 1).build());
    ByteArrayOutputStream xml = new ByteArrayOutputStream();
    MusicXmlWriter.write(truth.withBars(bars), xml);
    String one =
        xml.toString(StandardCharsets.UTF_8)
            .replaceFirst("(?s)^.*?<score-partwise", "<score-partwise");
    String part = one.substring(one.indexOf("<part id"), one.indexOf("</score-partwise>"));
    // only the top part has the marks; rests are written out in all
    String bare =
        part.replaceAll("(?s)<measure-style>\\s*<multiple-rest.*?</measure-style>", "")
            .replaceAll("(?s)<direction>.*?</direction>", "");
    String top = part.replaceAll("<rest measure=\"yes\"/>", "<unpitched/>");
    String list =
        "<part-list><score-part id=\"P1\"><part-name>Flute</part-name></score-part>"
            + "<score-part id=\"P2\"><part-name>Drums</part-name></score-part>"
            + "<score-part id=\"P3\"><part-name>Bass</part-name></score-part></part-list>";
    String full =
        "<score-partwise version=\"4.0\">"
            + list
            + top
            + bare.replace("\"P1\"", "\"P2\"")
            + bare.replace("\"P1\"", "\"P3\"")
            + "</score-partwise>";
    Path file = folder.resolve("score.mxl");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(file))) {
      entry(
          zip,
          "META-INF/container.xml",
          "<container><rootfiles><rootfile full-path=\"s.xml\"/></rootfiles></container>");
      entry(zip, "s.xml", full);
    }
    return file;
  }

  private static void entry(ZipOutputStream zip, String name, String text) throws IOException {
    zip.putNextEntry(new ZipEntry(name));
    zip.write(text.getBytes(StandardCharsets.UTF_8));
    zip.closeEntry();
  }

  @Test
  void theChairsPartIsUsed() throws IOException {
    Path page = Home.demoBook().resolve("page-01.png");
    Path out = folder.resolve("map.json");
    Ran ran = Ran.barmap("read", page, "--second", score(), "--part", "Bass", "--out", out);
    assertThat(ran.code()).as(ran.err()).isZero();
    List<Finding> found =
        BarMapJson.read(out).findings().stream()
            .filter(f -> f.code().startsWith("second-"))
            .toList();
    assertThat(found).hasSize(1);
    assertThat(found.get(0).text())
        .isEqualTo("The second reading has 7 bars here, the page 6 bars.");
  }

  @Test
  void aPartThatIsNotChosenOrNotThereIsAskedForAtOnce() throws IOException {
    Path page = Home.demoBook().resolve("page-01.png");
    Path out = folder.resolve("map.json");
    Ran none = Ran.barmap("read", page, "--second", score(), "--out", out);
    assertThat(none.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(none.complaints().get(0))
        .contains("score.mxl", "--second-part", "Flute, Drums, Bass");
    Ran wrong =
        Ran.barmap("read", page, "--second", score(), "--second-part", "Tuba", "--out", out);
    assertThat(wrong.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(wrong.complaints().get(0)).contains("no part called \"Tuba\"", "Flute, Drums, Bass");
    Path text = Files.writeString(folder.resolve("text.mxl"), "no score");
    Ran broken = Ran.barmap("read", page, "--second", text, "--out", out);
    assertThat(broken.code()).isEqualTo(ExitCode.UNREADABLE);
    assertThat(broken.complaints().get(0)).contains("text.mxl", "no MusicXML");
    assertThat(out).doesNotExist();
  }
}
