package org.barmap.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

class GuardTest {
  @TempDir Path folder;

  private BarMap truth() throws IOException {
    String truth =
        new String(
            java.util.Objects.requireNonNull(
                    GuardTest.class.getResourceAsStream("plain-truth.json"))
                .readAllBytes(),
            java.nio.charset.StandardCharsets.UTF_8);
    Files.writeString(folder.resolve("leaf.json"), truth);
    Files.write(folder.resolve("leaf-01.png"), new byte[0]);
    Files.write(folder.resolve("leaf-02.png"), new byte[0]);
    return BarMapJson.mapper().readValue(truth, BarMap.class);
  }

  @Test
  void aWorseReaderIsNoticedAndTheSameOneIsNot() throws Exception {
    BarMap right = truth();
    Evaluation good = Evaluation.of(folder, images -> right);
    assertThat(good.files()).hasSize(1);
    Path file = Report.write(good, folder.resolve("reports"), "corpus", LocalDate.of(2026, 11, 25));
    assertThat(file).content().contains("## Confidence", "no page needs a correction");
    JsonNode report =
        BarMapJson.mapper()
            .readTree(Files.readString(folder.resolve("reports/corpus-2026-11-25.json")));
    assertThat(Guard.dropped(report, good)).isEmpty();
    BarMap wrong = right.withBars(right.bars().subList(0, right.bars().size() - 1));
    List<String> dropped = Guard.dropped(report, Evaluation.of(folder, images -> wrong));
    assertThat(dropped).anyMatch(d -> d.contains("barline_f1"));
  }

  /** A little less in every report would be a lot less in the end. */
  @Test
  void aFigureThatIsALittleLowerIsNoticed() throws Exception {
    BarMap right = truth();
    Evaluation now = Evaluation.of(folder, images -> right);
    Report.write(now, folder.resolve("reports"), "corpus", LocalDate.of(2026, 11, 25));
    ObjectNode report =
        (ObjectNode)
            BarMapJson.mapper()
                .readTree(Files.readString(folder.resolve("reports/corpus-2026-11-25.json")));
    ObjectNode figures = (ObjectNode) report.path("all").path("figures");
    double is = figures.path("number").asDouble();
    figures.put("number", is + 0.0002);
    assertThat(Guard.dropped(report, now)).isEmpty();
    figures.put("number", is + 0.001);
    assertThat(Guard.dropped(report, now)).singleElement().asString().contains("number");
  }
}
