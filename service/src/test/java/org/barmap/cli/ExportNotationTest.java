package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ExportNotationTest {

  @TempDir private Path folder;

  @Test
  void whatMusicXmlCantSayIsSaidBesideTheFile() {
    Ran ran = Ran.barmap("export", map(), "--number", "2");

    assertThat(ran.code()).isZero();
    assertThat(ran.out()).startsWith("<?xml").contains("<movement-number>2</movement-number>");
    assertThat(ran.err()).contains("What MusicXML can't say:", "No. 2", "vamp");
  }

  @Test
  void theClickIsAFileAndNeedsATempoWhereThereIsNone() throws Exception {
    Path file = folder.resolve("click.mid");

    assertThat(Ran.barmap("export", map(), "--as", "midi").err()).contains("--out FILE");
    assertThat(
            Ran.barmap("export", map(), "--as", "midi", "--number", "6", "--out", file.toString())
                .err())
        .contains("No. 6", "unknown tempo");
    assertThat(
            Ran.barmap("export", map(), "--as", "midi", "--tempo", "96", "--out", file.toString())
                .code())
        .isZero();
    assertThat(Files.readAllBytes(file)).startsWith('M', 'T', 'h', 'd');
  }

  private static String map() {
    return Path.of(
            System.getProperty("barmap.home", ".."), "corpus/saltmarsh/saltmarsh.barmap.json")
        .toString();
  }
}
