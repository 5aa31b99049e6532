package org.barmap.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.edit.draft.Draft;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import tools.jackson.databind.node.ObjectNode;

/** Clicks that go straight to a library of one book, in a folder that goes with it. */
abstract class LibraryClicks implements Click {

  private final Path folder;
  final SqliteLibrary library;
  final String book;

  private LibraryClicks() throws IOException {
    folder = Files.createTempDirectory("barmap-bench");
    library = SqliteLibrary.open(folder, Clock.systemUTC());
    book = library.books().add("Made", "Bass").id();
  }

  /** A correction, computed and kept. */
  static Click corrected(BarMap map) throws IOException {
    return new Corrected(map);
  }

  /** A change switched on and off, kept, the book planned anew, and the plan written as JSON. */
  static Click planned(BarMap map) throws IOException {
    return new Planned(map);
  }

  @Override
  public void close() throws IOException {
    library.close();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }

  /** Puts a made map into the book. */
  void lay(BarMap map) {
    library.readings().lay(book, library.readings().material(book), map);
  }

  private static final class Corrected extends LibraryClicks {
    private final BarMap map;
    private long revision;

    Corrected(BarMap map) throws IOException {
      this.map = map;
      lay(map);
      revision = library.drafts().find(book).orElseThrow().revision();
    }

    @Override
    public void once(int round) {
      Saved<Draft> saved =
          library.drafts().correct(book, revision, "", MadeMap.correction(map, round));
      revision = ((Saved.Done<Draft>) saved).now().revision();
    }
  }

  private static final class Planned extends LibraryClicks {
    private final String change;
    private long revision;

    Planned(BarMap map) throws IOException {
      lay(map);
      ObjectNode cut = BarMapJson.mapper().createObjectNode();
      cut.put("number", map.numbers().get(0).label());
      cut.put("kind", "cut").put("first", "3").put("last", "4");
      revision = done(library.changes().add(book, 0, "", cut)).revision();
      change = now().get(0).path("id").asString("");
    }

    @Override
    public void once(int round) {
      ObjectNode values = BarMapJson.mapper().createObjectNode().put("on", round % 2 == 0);
      revision = done(library.changes().patch(book, revision, "", change, values)).revision();
      ShowChanges changes = new ShowChanges(now().stream().map(ChangesJson::readOne).toList());
      BarMap kept = library.drafts().find(book).orElseThrow().value().map();
      PlanJson.write(Planner.plan(kept, changes, PlanSettings.USUAL));
    }

    private List<ObjectNode> now() {
      return library.changes().find(book).orElseThrow().value();
    }

    private static Versioned<List<ObjectNode>> done(Saved<List<ObjectNode>> saved) {
      return ((Saved.Done<List<ObjectNode>>) saved).now();
    }
  }
}
