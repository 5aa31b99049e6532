package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.order.OrderText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/** Whoever answers a question by the changes it offers gets the bars it showed, and no question. */
class InsteadTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '~',
      textBlock =
          """
          4/4 m4 |: m4 :| m4 ~ {'kind':'cut','first':'3','last':'6'}
          4/4 m4 |: m4 :| m4 ~ {'kind':'cut','first':'7','last':'9'}
          4/4 m8             ~ {'kind':'insert','after':'4','bars':2}
          4/4 m4 R4 m4       ~ {'kind':'insert','before':'6','bars':1}
          4/4 m4 |: m4 :| m4 ~ {'kind':'vamp','first':'3','last':'6','leave':'end-of-pass'}
          """)
  void theChangesOfAReadingSayIt(String book, String change) {
    assertThat(offered(book, change)).isGreaterThan(1);
  }

  /** Two changes that get in each other's way: each way of the question is one tap. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '~',
      textBlock =
          """
          1 ~ {'kind':'cut','first':'3','last':'4'}   ~ {'kind':'cut','first':'3','last':'4'}
          2 ~ {'kind':'vamp','first':'3','last':'6','leave':'end-of-pass'} ~ {'kind':'vamp','first':'5','last':'8','leave':'end-of-pass'}
          2 ~ {'kind':'vamp','first':'3','last':'6','leave':'end-of-pass'} ~ {'kind':'vamp','first':'3','last':'6','leave':'any-time'}
          2 ~ {'kind':'track'} ~ {'kind':'vamp','first':'3','last':'6','leave':'end-of-pass'}
          2 ~ {'kind':'play','first':'3','last':'6','times':3} ~ {'kind':'vamp','first':'3','last':'6','leave':'end-of-pass'}
          """)
  void changesInEachOthersWay(int ways, String one, String other) {
    assertThat(offered("4/4 m12", one, other)).isEqualTo(ways);
  }

  /** A way out that isn't in the vamp has one way: the plain one. */
  @Test
  void aWayOutBesideTheVamp() {
    String vamp =
        "{'kind':'vamp','first':'3','last':'6','leave':'end-of-pass','exitBar':'9','cue':'a bell'}";
    assertThat(offered("4/4 m12", vamp)).isEqualTo(1);
  }

  /** What is printed over the first bar of a repeat holds for it alone, or for the rest of it. */
  @Test
  void whatIsPrintedAboutPasses() {
    assertThat(offered("4/4 m2 |: m '2nd time only' m3 :| m2")).isEqualTo(2);
  }

  @Test
  void countsInPrint() {
    assertThat(offered("4/4 m2 |: 'repeat 3 times' m2 :| m2")).isEqualTo(2);
    assertThat(offered("4/4 m2 |: 'x4' m2 :| x3 m2")).isEqualTo(2);
    assertThat(offered("4/4 m2 'play 4 times' m m2")).isEqualTo(2);
    assertThat(offered("4/4 m2 |: m '4x' m m :| m2")).isEqualTo(3);
  }

  @Test
  void anOrderOfSomeNumbers() {
    assertThat(
            offered("4/4 m4 #2 4/4 m4 #3 4/4 m4 #4 4/4 m4", "{'kind':'order','numbers':['4','1']}"))
        .isEqualTo(3);
  }

  @Test
  void twoOrdersOfNumbers() {
    assertThat(
            offered(
                "4/4 m4 #2 4/4 m4 #3 4/4 m4",
                "{'kind':'order','numbers':['2','1']}",
                "{'kind':'order','numbers':['3','2']}"))
        .isEqualTo(3);
  }

  /** Tries every way that can be taken; returns how many those are. */
  private static int offered(String book, String... changes) {
    BarMap map = BookNotation.read("#1 " + book).map();
    List<ShowChange> list = new ArrayList<>();
    for (String change : changes) {
      String number = change.contains("order") ? "" : "'number':'1',";
      String json = change.replace("{", "{'id':'c" + list.size() + "'," + number);
      list.add(ChangesJson.readOne(BarMapJson.mapper().readTree(json.replace('\'', '"'))));
    }
    Plan plan = Planner.plan(map, new ShowChanges(list), PlanSettings.USUAL);
    JsonNode written = PlanJson.tree(plan).path("findings");
    int offered = 0;
    for (int f = 0; f < plan.findings().size(); f++) {
      Optional<Question> question = plan.findings().get(f).question();
      for (int r = 0; r < question.map(q -> q.readings().size()).orElse(0); r++) {
        JsonNode instead =
            written.path(f).path("question").path("readings").path(r).path("instead");
        if (!instead.isMissingNode()) {
          offered++;
          List<ShowChange> after = taken(list, plan.findings().get(f).change(), instead);
          answered(
              map,
              after,
              plan.findings().get(f),
              Objects.requireNonNull(question.orElseThrow().readings().get(r)));
        }
      }
    }
    return offered;
  }

  /** What a way offers comes in the place of the change that the question is about. */
  private static List<ShowChange> taken(
      List<ShowChange> list, Optional<String> about, JsonNode instead) {
    Map<String, ShowChange> after = new LinkedHashMap<>();
    list.forEach(c -> after.put(c.meta().id(), c));
    about.ifPresent(after::remove);
    instead.forEach(
        node -> {
          ShowChange change = ChangesJson.readOne(node);
          after.put(change.meta().id(), change);
        });
    return List.copyOf(after.values());
  }

  private static void answered(
      BarMap map, List<ShowChange> changes, PlanFinding asked, Question.Reading reading) {
    Plan plan = Planner.plan(map, new ShowChanges(changes), PlanSettings.USUAL);
    assertThat(plan.findings())
        .as("%s, with %s", reading.says(), changes)
        .filteredOn(f -> f.question().isPresent())
        .filteredOn(f -> f.code().equals(asked.code()))
        .isEmpty();
    // what a word about passes holds for is told, not the order
    boolean order = asked.question().filter(q -> q.topic() == Question.Topic.PASS).isEmpty();
    reading
        .bars()
        .filter(b -> order && !b.contains("v") && !b.contains("s"))
        .ifPresent(
            b ->
                assertThat(OrderText.line(names(plan, map)))
                    .as("%s, with %s", reading.says(), changes)
                    .isEqualTo(b));
  }

  private static List<String> names(Plan plan, BarMap map) {
    List<String> names = new ArrayList<>();
    for (NumberPlan.Entry entry : plan.numbers().get(0).order()) {
      names.add(String.valueOf(Objects.requireNonNull(map.barsById().get(entry.bar())).number()));
    }
    return names;
  }
}
