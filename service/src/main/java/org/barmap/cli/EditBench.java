package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.barmap.edit.BarCorrection;
import org.barmap.edit.Draft;
import org.barmap.edit.Editing;
import org.barmap.edit.Outcome;
import org.barmap.library.Saved;
import org.barmap.library.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;

/** Measures corrections in a book of 3,000 bars: computed only, and kept on disk. */
final class EditBench {

  private static final int BARS = 3000;
  private static final int ROUNDS = 41;

  private EditBench() {}

  static void measure(Map<String, Object> figures) throws IOException {
    BarMap map = MadeBook.of(BARS);
    figures.put("editBars", map.writtenBars());
    figures.put("editMillis", BenchCommand.medianMillis(computed(map)));
    figures.put("editKeptMillis", BenchCommand.medianMillis(kept(map)));
  }

  private static long[] computed(BarMap map) {
    Draft draft = Draft.of(map);
    long[] nanos = new long[ROUNDS];
    for (int i = -ROUNDS; i < ROUNDS; i++) {
      long start = System.nanoTime();
      Outcome outcome = Editing.correct(draft, correction(map, i));
      if (i >= 0) {
        nanos[i] = System.nanoTime() - start;
      }
      draft = ((Outcome.Done) outcome).draft();
    }
    return nanos;
  }

  private static long[] kept(BarMap map) throws IOException {
    Path folder = Files.createTempDirectory("barmap-bench");
    long[] nanos = new long[ROUNDS];
    try (SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC())) {
      String book = library.books().add("Made", "Bass").id();
      long revision = library.drafts().read(book, map).revision();
      for (int i = -10; i < ROUNDS; i++) {
        long start = System.nanoTime();
        Saved<Draft> saved = library.drafts().correct(book, revision, "", correction(map, i));
        if (i >= 0) {
          nanos[i] = System.nanoTime() - start;
        }
        revision = ((Saved.Done<Draft>) saved).now().revision();
      }
    } finally {
      delete(folder);
    }
    return nanos;
  }

  private static BarCorrection correction(BarMap map, int round) {
    List<Bar> bars = map.bars();
    Bar bar = bars.get(Math.floorMod(round * 37, bars.size()));
    return new BarCorrection.SetCount(bar.id(), 2 + Math.floorMod(round, 9));
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
