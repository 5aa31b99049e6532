package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** The changes as they stood at a moment, however they were made and taken back since. */
class ChangesAtTest extends OnEachStore {

  private static final Duration HOUR = Duration.ofHours(1);

  @Test
  void everyStepAndItsTakingBackCountsFromItsMoment() {
    Changes changes = library.changes();
    String book = cutTwoAndTakeOneBack(changes);
    changes.add(book, 3, "Ada", cut("9"));
    clock.pass(HOUR);
    String first = changes.find(book).orElseThrow().value().get(0).path("id").asString("");
    changes.remove(book, 4, "Ada", first);

    assertThat(firsts(changes, book, 0)).isEmpty();
    assertThat(firsts(changes, book, 1)).containsExactly("3");
    assertThat(firsts(changes, book, 2)).containsExactly("3", "7");
    assertThat(firsts(changes, book, 3)).containsExactly("3");
    assertThat(firsts(changes, book, 4)).containsExactly("3", "9");
    assertThat(firsts(changes, book, 5)).containsExactly("9");
    assertThat(changes.at("nobody", NOW)).isEmpty();
  }

  @Test
  void aStepTakenBackAndMadeAgainWasOutInBetween() {
    Changes changes = library.changes();
    String book = cutTwoAndTakeOneBack(changes);
    changes.redo(book, 3);
    clock.pass(HOUR);
    changes.undo(book, 4);
    clock.pass(HOUR);
    changes.undo(book, 5);
    clock.pass(HOUR);
    changes.redo(book, 6);

    assertThat(firsts(changes, book, 2)).containsExactly("3", "7");
    assertThat(firsts(changes, book, 3)).containsExactly("3");
    assertThat(firsts(changes, book, 4)).containsExactly("3", "7");
    assertThat(firsts(changes, book, 5)).containsExactly("3");
    assertThat(firsts(changes, book, 6)).isEmpty();
    assertThat(firsts(changes, book, 7)).containsExactly("3");
  }

  /** At the hours 1 and 2 bars 3 and 7 are cut; at 3 bar 7 is played again. */
  private String cutTwoAndTakeOneBack(Changes changes) {
    String book = library.books().add("Saltmarsh", "Bass").id();
    clock.pass(HOUR);
    changes.add(book, 0, "Ada", cut("3"));
    clock.pass(HOUR);
    changes.add(book, 1, "Ada", cut("7"));
    clock.pass(HOUR);
    changes.undo(book, 2);
    clock.pass(HOUR);
    return book;
  }

  private static List<String> firsts(Changes changes, String book, int hours) {
    return changes.at(book, NOW.plus(Duration.ofMinutes(60L * hours + 30))).stream()
        .map(c -> c.path("first").asString(""))
        .toList();
  }

  private static ObjectNode cut(String bar) {
    ObjectNode change = BarMapJson.mapper().createObjectNode();
    change.put("kind", "cut").put("first", bar).put("last", bar);
    return change;
  }
}
