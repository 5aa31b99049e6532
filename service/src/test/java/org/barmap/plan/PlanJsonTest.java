package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.BadChangesException;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The documents {@code changes/1} and {@code barplan/1} as their definition prints them. */
class PlanJsonTest {

  /** The example of the format's definition, with an order of numbers and switches added. */
  private static final String CHANGES =
      """
      { "format": "changes/1",
        "changes": [
          { "id": "c1", "number": "7", "kind": "cut", "first": "34", "last": "49", "note": "scene change got shorter" },
          { "id": "c2", "number": "7", "kind": "vamp", "first": "B", "last": "B + 1", "leave": "end-of-pass" },
          { "id": "c3", "number": "7", "kind": "safety", "first": "60", "last": "61" },
          { "id": "c4", "number": "9", "kind": "play", "first": "10", "last": "13", "times": 3 },
          { "id": "c5", "number": "9", "kind": "insert", "after": "24", "bars": 2, "label": "24A" },
          { "id": "c6", "number": "12", "kind": "tacet" },
          { "id": "c7", "number": "13", "kind": "cut-number" },
          { "id": "c8", "number": "7", "kind": "tempo", "first": "1", "beat": "1/4", "perMinute": 132 },
          { "id": "c9", "number": "7", "kind": "beats", "first": "20", "last": "30", "beats": 2 },
          { "id": "c10", "number": "7", "kind": "instrument", "first": "50", "to": "electric bass" },
          { "id": "c11", "number": "7", "kind": "remind", "first": "57", "what": "watch", "on": false },
          { "id": "c12", "kind": "order", "numbers": ["9", "7"], "when": "2026-11-24T19:00:00Z", "who": "Ann" } ] }
      """;

  private static final String BOOK =
      "%7 1@p1 2@mr10 12@mA 13@mr14 27@mB 28 29@mr3 32@p2 33@mr10 43@p3 44@mr12 56@mC@p4 57 58@mr4 62"
          + " %9 91@p5 92 93@mr6 99 100@mr4 104@mr20 124 %12 121@p6 %13 131@p7@mr4";

  @Test
  void everyKindOfChangeReadsAndWritesBackTheSame() {
    ShowChanges changes = ChangesJson.read(CHANGES);
    assertThat(changes.changes()).hasSize(12);
    assertThat(changes.active()).hasSize(11);
    JsonNode written = BarMapJson.mapper().readTree(ChangesJson.write(changes));
    assertThat(written).isEqualTo(BarMapJson.mapper().readTree(CHANGES));
  }

  @Test
  void brokenChangesAreNamedWithTheirPlace() {
    assertThatThrownBy(() -> ChangesJson.read("[")).isInstanceOf(BadChangesException.class);
    assertThatThrownBy(() -> ChangesJson.read(CHANGES.replace("\"times\": 3", "\"times\": 0")))
        .hasMessageContaining("/changes/3/times");
    assertThatThrownBy(() -> ChangesJson.read(CHANGES.replace("end-of-pass", "whenever")))
        .hasMessageContaining("/changes/1/leave");
    assertThatThrownBy(() -> ChangesJson.read(CHANGES.replace("\"c2\"", "\"c1\"")))
        .hasMessageContaining("c1");
  }

  @Test
  void aPlanIsAValidDocument() {
    BarMap map = Books.book(BOOK);
    Plan plan = Planner.plan(map, ChangesJson.read(CHANGES), PlanSettings.USUAL);
    JsonNode tree = BarMapJson.mapper().readTree(PlanJson.write(plan));
    assertThat(PlanSchema.check(tree)).isEmpty();
    assertThat(tree.path("numbers").path(0).path("label").asString()).isEqualTo("9");
    assertThat(plan.numbers())
        .extracting(NumberPlan::state)
        .containsExactly(
            NumberPlan.State.PLAYED,
            NumberPlan.State.PLAYED,
            NumberPlan.State.TACET,
            NumberPlan.State.CUT);
    assertThat(plan.pencil()).isNotEmpty();
    assertThat(plan.rests()).isNotEmpty();
    assertThat(plan.turns()).isNotEmpty();
    assertThat(plan.instruments()).isNotEmpty();
    assertThat(PlanJson.write(plan)).doesNotContain("null");
  }
}
