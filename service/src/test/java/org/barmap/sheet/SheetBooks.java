package org.barmap.sheet;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Heard;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.page.Leaf;
import org.barmap.plan.turn.TurnSettings;
import org.barmap.plan.words.ChangeWords;

/**
 * The books whose sheets are looked at: the demo book with what its director changed, and a made
 * one of twenty numbers ({@code twenty.book} in the notation of the trade's cases, {@code
 * twenty.said} as its director says it).
 */
record SheetBooks(BarMap map, ShowChanges changes, Plan plan) {

  static final Path DEMO = Path.of(System.getProperty("barmap.home", ".."), "corpus", "saltmarsh");

  static SheetBooks demo() throws IOException {
    BarMap map = BarMapJson.read(DEMO.resolve("saltmarsh.barmap.json"));
    ShowChanges changes = ChangesJson.read(Files.readString(DEMO.resolve("changes.json")));
    return of(map, changes, Map.of());
  }

  static SheetBooks twenty() throws IOException {
    BarMap written = BookNotation.read(resource("twenty.book")).map();
    BarMap map =
        BarMap.of(
            new Book("Saltmarsh", "Double Bass / Electric Bass"),
            written.pages(),
            written.numbers(),
            written.bars());
    List<ShowChange> changes = new ArrayList<>();
    for (Heard<ShowChange> heard : ChangeWords.understand(map, resource("twenty.said"))) {
      if (!(heard instanceof Heard.Understood<ShowChange> understood)) {
        throw new AssertionError(heard.toString());
      }
      changes.add(understood.change());
    }
    return of(map, new ShowChanges(changes), Map.of(6, Leaf.LOOSE));
  }

  private static SheetBooks of(BarMap map, ShowChanges changes, Map<Integer, Leaf> leaves) {
    TurnSettings turns = TurnSettings.USUAL.lying(Optional.of(FirstPage.RIGHT), leaves);
    return new SheetBooks(
        map, changes, Planner.plan(map, changes, PlanSettings.USUAL.withTurns(turns)));
  }

  private static String resource(String name) throws IOException {
    try (InputStream in = SheetBooks.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IOException(name + " is missing");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
