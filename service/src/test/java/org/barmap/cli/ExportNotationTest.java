package org.barmap.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

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

  /** A file that has the cut bars in it, or all numbers, is none that was asked for. */
  @ParameterizedTest
  @CsvSource({
    "musicxml, --changes, changes.json",
    "mei, --changes, changes.json",
    "csv, --number, 2",
    "mei, --number, 2",
    "musicxml, --tempo, 96"
  })
  void whatAFormHasNoUseForIsRefused(String form, String option, String value) {
    Ran ran = Ran.barmap("export", map(), "--as", form, option, value);

    assertThat(ran.code()).isEqualTo(2);
    assertThat(ran.out()).isEmpty();
    assertThat(ran.err()).contains(option, "--as " + form + " would leave it out");
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-5", "NaN", "1e9"})
  void aTempoIsOneThatCanBePlayed(String tempo) {
    Path file = folder.resolve("click.mid");
    Ran ran = Ran.barmap("export", map(), "--as", "midi", "--tempo=" + tempo, "--out", file);

    assertThat(ran.code()).isEqualTo(2);
    assertThat(ran.err()).contains("20 to 300");
    assertThat(file).doesNotExist();
  }

  private static String map() {
    return Path.of(
            System.getProperty("barmap.home", ".."), "corpus/saltmarsh/saltmarsh.barmap.json")
        .toString();
  }
}
