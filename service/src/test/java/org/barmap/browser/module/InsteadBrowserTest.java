package org.barmap.browser.module;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.show.Showing;
import org.barmap.plan.show.Versions;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Which change the list shows in the place of another, against the planner: lists drawn at random
 * with changes that replace others, take them back, and hold in some shows only.
 */
class InsteadBrowserTest extends OpenModules {
  private static final int LISTS = Integer.getInteger("barmap.insteadLists", 400);

  /** The cut was made longer, and that was taken back: the first one counts. */
  @Test
  void aReplacementThatWasTakenBackStandsForNothing() {
    ArrayNode list = BarMapJson.mapper().createArrayNode();
    list.add(change("a"));
    list.add(change("b").put("replaces", "a"));
    list.add(change("c").put("kind", "restore").put("text", "cut 1 to 2").put("replaces", "b"));
    assertThat(shown(list)).containsExactly("counts", "now c", "counts");
  }

  @Test
  void whatTheListShowsIsWhatThePlannerReckons() {
    for (int seed = 0; seed < LISTS; seed++) {
      ArrayNode list = any(new Random(seed));
      List<ShowChange> changes = new ArrayList<>();
      list.forEach(c -> changes.add(ChangesJson.readOne(c)));
      List<String> shown = shown(list);
      for (int i = 0; i < changes.size(); i++) {
        if (changes.get(i).meta().on()) {
          String why = "seed " + seed + ", change " + i + " of " + list;
          assertThat(shown.get(i)).as(why).matches(expected(changes.get(i), changes));
        }
      }
    }
  }

  private static ObjectNode change(String id) {
    return BarMapJson.mapper()
        .createObjectNode()
        .put("id", id)
        .put("number", "1")
        .put("kind", "cut")
        .put("first", "1")
        .put("last", "2");
  }

  private static ArrayNode any(Random random) {
    ArrayNode list = BarMapJson.mapper().createArrayNode();
    int many = 1 + random.nextInt(6);
    for (int i = 0; i < many; i++) {
      ObjectNode one = change("c" + i);
      boolean replaces = i > 0 && random.nextInt(4) > 0;
      if (replaces) {
        one.put("replaces", "c" + random.nextInt(i));
        if (random.nextInt(3) == 0) {
          one.put("kind", "restore").put("text", "cut 1 to 2");
        }
      }
      if (random.nextInt(3) == 0) {
        one.put("version", random.nextBoolean() ? "matinee" : "evening");
      }
      if (random.nextInt(5) == 0) {
        one.put("on", false);
      }
      list.add(one);
    }
    return list;
  }

  /** What the planner says of a change: in which shows another one counts in its place. */
  private static String expected(ShowChange change, List<ShowChange> all) {
    List<ShowChange> active = new ShowChanges(all).active();
    String id = change.meta().id();
    if (!active.contains(change)) {
      return "now (?!" + id + "$)\\w+";
    }
    boolean somewhere = false;
    for (String version : List.of("matinee", "evening")) {
      boolean there = change.meta().version().filter(v -> !v.equals(version)).isEmpty();
      Showing showing = new Showing(Optional.of(version), Optional.empty());
      List<ShowChange> held = Versions.holding(active, showing, new ArrayList<>());
      somewhere |= there && !change.takesBack() && !held.contains(change);
    }
    return change.takesBack() ? "counts|(?:now|some) \\w+" : somewhere ? "some \\w+" : "counts";
  }

  private List<String> shown(ArrayNode list) {
    JsonNode told =
        BarMapJson.mapper()
            .readTree(
                String.valueOf(
                    browser()
                        .script(
                            "return import('/js/road/instead.js').then(m => { const all = JSON.parse(arguments[0]);"
                                + " return JSON.stringify(all.map(c => { const i = m.insteadOf(c, all);"
                                + " return i ? (i.always ? 'now ' : 'some ') + i.by.id : 'counts'; })); })",
                            list.toString())));
    return told.valueStream().map(JsonNode::asString).toList();
  }
}
