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
import org.barmap.library.Versioned;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import tools.jackson.databind.node.ObjectNode;

/**
 * Measures what follows a step in a book of 3,000 bars: a correction computed and kept, a change
 * planned.
 */
final class EditBench {

  private static final int BARS = 3000;
  private static final int ROUNDS = 41;

  private EditBench() {}

  static void measure(Map<String, Object> figures) throws IOException {
    BarMap map = MadeBook.of(BARS);
    figures.put("editBars", map.writtenBars());
    figures.put("editMillis", BenchCommand.medianMillis(computed(map)));
    figures.put("editKeptMillis", BenchCommand.medianMillis(kept(map)));
    figures.put("changePlannedMillis", BenchCommand.medianMillis(planned(map)));
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

  /** A change switched on and off, kept, the book planned anew, and the plan written as JSON. */
  private static long[] planned(BarMap map) throws IOException {
    Path folder = Files.createTempDirectory("barmap-bench");
    long[] nanos = new long[ROUNDS];
    try (SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC())) {
      String book = library.books().add("Made", "Bass").id();
      library.drafts().read(book, map);
      ObjectNode cut = BarMapJson.mapper().createObjectNode();
      cut.put("number", map.numbers().get(0).label());
      cut.put("kind", "cut").put("first", "3").put("last", "4");
      long revision = done(library.changes().add(book, 0, "", cut)).revision();
      String id = now(library, book).get(0).path("id").asString("");
      for (int i = -20; i < ROUNDS; i++) {
        ObjectNode values = BarMapJson.mapper().createObjectNode().put("on", i % 2 == 0);
        long start = System.nanoTime();
        revision = done(library.changes().patch(book, revision, "", id, values)).revision();
        ShowChanges changes =
            new ShowChanges(now(library, book).stream().map(ChangesJson::readOne).toList());
        BarMap kept = library.drafts().find(book).orElseThrow().value().map();
        PlanJson.write(Planner.plan(kept, changes, PlanSettings.USUAL));
        if (i >= 0) {
          nanos[i] = System.nanoTime() - start;
        }
      }
    } finally {
      delete(folder);
    }
    return nanos;
  }

  private static List<ObjectNode> now(SqliteLibrary library, String book) {
    return library.changes().find(book).orElseThrow().value();
  }

  private static Versioned<List<ObjectNode>> done(Saved<List<ObjectNode>> saved) {
    return ((Saved.Done<List<ObjectNode>>) saved).now();
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
