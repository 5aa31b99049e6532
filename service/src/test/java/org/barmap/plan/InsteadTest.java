package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.Question;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.order.OrderText;
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
          """)
  void theChangesOfAReadingSayIt(String book, String change) {
    BarMap map = BookNotation.read("#1 " + book).map();
    ShowChange said =
        ChangesJson.readOne(
            BarMapJson.mapper()
                .readTree(change.replace("{", "{'id':'c1','number':'1',").replace('\'', '"')));
    Plan plan = Planner.plan(map, ShowChanges.of(said), PlanSettings.USUAL);
    JsonNode written = PlanJson.tree(plan).path("findings");
    int offered = 0;
    for (int f = 0; f < plan.findings().size(); f++) {
      Optional<Question> question = plan.findings().get(f).question();
      for (int r = 0; r < question.map(q -> q.readings().size()).orElse(0); r++) {
        JsonNode instead =
            written.path(f).path("question").path("readings").path(r).path("instead");
        if (!instead.isMissingNode()) {
          offered++;
          answered(map, instead, question.get().readings().get(r));
        }
      }
    }
    assertThat(offered).isGreaterThan(1);
  }

  private static void answered(BarMap map, JsonNode instead, Question.Reading reading) {
    List<ShowChange> changes = new ArrayList<>();
    instead.forEach(c -> changes.add(ChangesJson.readOne(c)));
    Plan plan = Planner.plan(map, new ShowChanges(changes), PlanSettings.USUAL);
    assertThat(plan.findings()).filteredOn(f -> f.question().isPresent()).isEmpty();
    reading
        .bars()
        .ifPresent(
            b ->
                assertThat(OrderText.line(names(plan, map)))
                    .as("%s, with %s", reading.says(), instead)
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
