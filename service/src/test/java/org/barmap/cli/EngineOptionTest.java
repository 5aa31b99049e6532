package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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

/** Commands as second readers of a page; the demo's first, whose truth is the oracle. */
class EngineOptionTest {

  private static final Path PAGE = Home.demoBook().resolve("page-01.png");

  @TempDir private Path folder;

  @BeforeAll
  static void quiet() {
    Logs.quiet();
  }

  /** The page's truth with its nth long rest one bar longer. */
  private Path score(int nth) throws IOException {
    BarMap truth = BarMapJson.read(Home.demoBook().resolve("page-01.json"));
    List<Bar> bars = new ArrayList<>(truth.bars());
    int at = -1;
    for (int left = nth; left > 0; left--) {
      at++;
      while (bars.get(at).count() == 1) {
        at++;
      }
    }
    bars.set(at, bars.get(at).toBuilder().count(bars.get(at).count() + 1).build());
    Path file = folder.resolve("said-" + nth + ".musicxml");
    try (OutputStream out = Files.newOutputStream(file)) {
      MusicXmlWriter.write(truth.withBars(bars), out);
    }
    return file;
  }

  private static String copying(Path score) {
    return "cp -t {out} '" + score + "' {pages}/page-0001.png";
  }

  @Test
  void allThatReadAreEvidenceAndOneThatFailsIsNamed() throws IOException {
    Path out = folder.resolve("map.json");
    Ran ran =
        Ran.barmap(
            "read",
            PAGE,
            "--out",
            out,
            "--engine",
            copying(score(1)),
            "--engine",
            "broken=/nowhere/reader {pages} {out}",
            "--engine",
            "two=" + copying(score(2)));
    assertThat(ran.code()).as(ran.err()).isZero();
    assertThat(ran.complaints()).hasSize(1);
    assertThat(ran.complaints().get(0)).startsWith("barmap: broken ended").endsWith("not used");
    List<String> differ =
        BarMapJson.read(out).findings().stream()
            .filter(f -> f.code().equals("second-differs"))
            .map(Finding::text)
            .toList();
    assertThat(differ).as("one of either").hasSize(2);
  }

  @Test
  void whatIsAskedForWronglyIsSaidAtOnce() {
    assertThat(Ran.barmap("read", PAGE, "--engine", "nobody").complaints().get(0))
        .contains("no plugin nobody in", "{pages} and {out}");
    Ran half = Ran.barmap("read", PAGE, "--engine", "run {pages}");
    assertThat(half.code()).isEqualTo(ExitCode.WRONG_USE);
    assertThat(half.complaints().get(0)).contains("{out}");
    assertThat(Ran.barmap("read", "-", "--engine", "run {pages} {out}").complaints().get(0))
        .contains("not from standard input");
    assertThat(
            Ran.barmap("read", PAGE, "--engine", "a {pages} {out}", "--engine-minutes", "0").code())
        .isEqualTo(ExitCode.WRONG_USE);
  }
}
