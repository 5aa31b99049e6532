package org.barmap.fit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Map;
import java.util.TreeMap;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.map.json.BarMapJson;

/**
 * Measures which notes and rests are read on the corpus's pages: {@code barmap fit sounds} writes
 * {@code sounds.json}.
 */
final class MeasureSounds {

  /** What is written here. */
  static final Path KEPT = CorpusReadings.KEPT.resolve("sounds.json");

  private MeasureSounds() {}

  /**
   * Measures anew and keeps it.
   *
   * @return how many pages there were
   */
  static String run() throws IOException {
    Map<String, Map<String, String>> pages = new TreeMap<>();
    for (Labelled page : CorpusReadings.all()) {
      pages.put(page.truth().at("/pages/0/source").asString(), ReadSounds.of(page));
    }
    ReadSounds read = new ReadSounds(LocalDate.now(ZoneOffset.UTC).toString(), pages);
    Files.writeString(KEPT, BarMapJson.mapper().writeValueAsString(read) + "\n");
    return "%d pages%n".formatted(pages.size());
  }
}
