package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Optional;
import org.barmap.plan.cases.BookNotation;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.page.FirstPage;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.turn.Turn;
import org.barmap.plan.turn.TurnMark;
import org.barmap.plan.turn.TurnSettings;
import org.barmap.plan.turn.Verdict;
import org.junit.jupiter.api.Test;

/** A page turn and a change of instrument in one rest need the time of both (common practice). */
class TurnHandsTest {

  /** Two bars of four at this tempo around the turn, 2 s for the turn, 6 s for the instrument. */
  private static Plan plan(int tempo) {
    String book = "#1 4/4 '\u2669 = " + tempo + "' m8 r // r 'Electric Bass' m8";
    TurnSettings turns = TurnSettings.USUAL.lying(Optional.of(FirstPage.RIGHT), Map.of());
    return Planner.plan(
        BookNotation.read(book).map(), ShowChanges.none(), PlanSettings.USUAL.withTurns(turns));
  }

  @Test
  void eachAloneWouldFitBothDoNot() {
    Plan plan = plan(72); // 8 beats last 6.7 s
    Turn turn = plan.turns().get(0);
    GetReady ready = plan.instruments().get(0);
    assertThat(turn.verdict()).isEqualTo(Verdict.QUICK);
    assertThat(turn.mark()).contains(TurnMark.VS);
    assertThat(turn.alsoHere())
        .containsExactly("instrument: electric bass", "8 s are needed for both, 6.7 s are there");
    assertThat(ready.verdict()).isEqualTo(Verdict.QUICK);
    assertThat(ready.text())
        .endsWith("Page 1 is turned in the same rest: 8 s are needed for both, 6.7 s are there.");
    assertThat(plan.pencil()).extracting(m -> m.sign()).contains("V.S.");
  }

  @Test
  void inALongRestThereIsTimeForBoth() {
    Plan plan = plan(60); // 8 beats last 8 s
    assertThat(plan.turns().get(0).verdict()).isEqualTo(Verdict.TIME);
    assertThat(plan.turns().get(0).alsoHere()).containsExactly("instrument: electric bass");
    assertThat(plan.instruments().get(0).verdict()).isEqualTo(Verdict.TIME);
  }
}
