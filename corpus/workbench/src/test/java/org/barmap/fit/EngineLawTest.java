package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Progress;
import org.barmap.fit.MeasureEngines.Page;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * A second reader may be as wrong as it likes: the book is hardly the worse for it. The demo's
 * first page, whose truth is known, beside stand-ins that err at every rate.
 */
class EngineLawTest {

  private static final Path DEMO =
      Path.of(System.getProperty("barmap.home", "../..")).resolve("corpus/saltmarsh");

  /** Corrections that a page may need more than without: three, the most on the corpus. */
  private static final double MORE = 3;

  private static final int SEEDS = 4;

  @Test
  void aWrongReaderHardlyHarmsAndOneThatIsRightHelps() throws IOException {
    JsonNode truth = BarMapJson.mapper().readTree(Files.readString(DEMO.resolve("page-01.json")));
    BarMap map;
    try (Extractor extractor = Extractor.open()) {
      map = extractor.read(List.of(DEMO.resolve("page-01.png")), Options.NONE, Progress.NONE).map();
    }
    Page alone = Page.of(truth, map);
    Page right = Page.of(truth, MeasureEngines.with(map, truth, new StandIn(0, 1)));
    assertThat(right.wrong()).isLessThanOrEqualTo(alone.wrong());
    assertThat(right.left()).isLessThanOrEqualTo(alone.left());
    int worse = 0;
    for (double rate : new double[] {0.1, 0.3, 1}) {
      for (int seed = 1; seed <= SEEDS; seed++) {
        Page with = Page.of(truth, MeasureEngines.with(map, truth, new StandIn(rate, seed)));
        assertThat(with.wrong())
            .as("rate %s, seed %d", rate, seed)
            .isLessThanOrEqualTo(alone.wrong() + MORE);
        worse += with.wrong() > alone.wrong() ? 1 : 0;
      }
    }
    assertThat(worse).as("of %d readers", 3 * SEEDS).isLessThanOrEqualTo(1);
  }
}
