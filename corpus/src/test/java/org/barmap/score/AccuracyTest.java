package org.barmap.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.stream.Stream;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Progress;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Reads the committed corpus and holds every figure to the last committed report.
 *
 * <p>To write a new report after an improvement: {@code mvn test -pl corpus -am -Dtest=AccuracyTest
 * -Dbarmap.report=true -Dsurefire.failIfNoSpecifiedTests=false}.
 */
class AccuracyTest {
  private static final Path HOME =
      Path.of(System.getProperty("barmap.home", "..")).resolve("corpus");

  @Test
  void noFigureDropsBelowTheCommittedReport() throws IOException {
    Evaluation now;
    try (Extractor extractor = Extractor.open()) {
      now =
          Evaluation.of(
              HOME.resolve("pages"),
              images -> extractor.read(images, Options.NONE, Progress.NONE).map());
    }
    // read before a new one is written, which would only be compared with itself
    JsonNode report = BarMapJson.mapper().readTree(Files.readString(lastReport()));
    if (Boolean.getBoolean("barmap.report")) {
      Report.write(now, HOME.resolve("reports"), "corpus", LocalDate.now(java.time.ZoneOffset.UTC));
    }
    assertThat(Guard.dropped(report, now)).isEmpty();
  }

  private static Path lastReport() throws IOException {
    try (Stream<Path> files = Files.list(HOME.resolve("reports"))) {
      return files
          .filter(f -> f.getFileName().toString().matches("corpus-.*\\.json"))
          .max(Comparator.comparing(f -> f.getFileName().toString()))
          .orElseThrow();
    }
  }
}
