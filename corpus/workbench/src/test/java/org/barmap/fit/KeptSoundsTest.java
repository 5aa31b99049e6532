package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The notes and rests that were read on the corpus and are kept. */
class KeptSoundsTest {

  /** Processors sum up 8-bit networks a little differently, so not every value is the same. */
  @Test
  void whatIsKeptIsWhatIsRead() throws IOException {
    JsonNode kept =
        BarMapJson.mapper().readTree(Files.readString(MeasureSounds.KEPT)).path("pages");
    List<Path> truths = CorpusReadings.truths();
    int same = 0;
    int all = 0;
    for (int i = 0; i < truths.size(); i += 40) {
      JsonNode truth = BarMapJson.mapper().readTree(Files.readString(truths.get(i)));
      Path picture = truths.get(i).resolveSibling(truth.at("/pages/0/source").asString());
      Labelled page = new Labelled("", "", "", 0, truth, CorpusReadings.read(picture));
      for (Map.Entry<String, String> system : ReadSounds.of(page).entrySet()) {
        Map<String, String> now = byBar(system.getValue());
        String before =
            kept.path(picture.getFileName().toString()).path(system.getKey()).asString("");
        Map<String, String> then = byBar(before);
        same += (int) now.entrySet().stream().filter(then.entrySet()::contains).count();
        all += now.size();
      }
    }
    assertThat(all).isGreaterThan(100);
    assertThat(same)
        .as("bars of %s; measure anew after a change of models", all)
        .isGreaterThan((int) (0.9 * all));
  }

  /** The values read in each bar, in order. */
  private static Map<String, String> byBar(String sounds) {
    Map<String, String> out = new TreeMap<>();
    for (String s : sounds.isEmpty() ? new String[0] : sounds.split(" ")) {
      String value = s.substring(s.indexOf('.') + 3);
      out.merge(s.substring(0, s.indexOf('.')), value, (a, b) -> a + " " + b);
    }
    return out;
  }
}
