package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;
import org.barmap.map.BarMap;
import org.barmap.map.rule.BarMapRules;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Written bars and the order they sound in, restated from two published toolkits' own tests. */
class OrderOfPlayTest {

  /** Source: repeat-expansion tests of the music21 toolkit (test_repeat.py, commit 3146cb0). */
  @ParameterizedTest
  @CsvSource(delimiter = ';', textBlock = PublishedOrders.MUSIC21)
  void barsSoundInTheOrderTheSourceSays(String written, String order) {
    assertThat(orderOf(written, false)).isEqualTo(order);
  }

  /** Source: as above; the row with a repeat and a plain D.C., both ways. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1 2 |:3:| 4@dc 5 ; false ; 10
          1 2 |:3:| 4@dc 5 ; true  ; 11
          """)
  void repeatsAfterDaCapoAreTheSettingsChoice(String written, boolean again, int bars) {
    assertThat(orderOf(written, again).split(" ")).hasSize(bars);
  }

  /**
   * Source: tests of the partitura toolkit (commit e01626b), which takes repeats after the D.C.;
   * the 17 bars without are computed from it.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          true  ; 1 1 2 3 4 5 3 4 6 7 3 4 8 1 1 2 3 4
          false ; 1 1 2 3 4 5 3 4 6 7 3 4 8 1 2 3 4
          """)
  void endingsAndDaCapoAlFine(boolean again, String order) {
    String written = "1:| 2 |:3 4@fine 5/1:| 6/2 7/2:| 8/3@dc";
    assertThat(orderOf(written, again)).isEqualTo(order);
  }

  /** Source: forms the music21 toolkit rejects (as above); here each is a clear finding. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          """
          1 2 3@ds 4                    ; segno-missing
          1 2 3@dc@w:D.C._al_Fine 4     ; fine-missing
          1 2@to 3@dc 4 5               ; coda-missing
          1 2 3@dc 4@coda 5             ; to-coda-missing
          1@segno 2 3@dc@ds 4           ; jump-twice
          1 2/1 3/1:| 4/1,2 5           ; endings-overlap
          1 2/2:| 3/3 4                 ; endings-start
          1 2/1 3/2 4                   ; ending-not-closed
          1 |:2 3 4                     ; repeat-not-closed
          """)
  void whatTheSourceRejectsIsAFinding(String written, String code) {
    BarMap map = Books.book(written);
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    assertThat(plan.findings().stream().map(PlanFinding::code)).contains(code);
    assertThat(plan.findings().stream().map(PlanFinding::text).collect(Collectors.joining()))
        .isNotBlank();
  }

  private static String orderOf(String written, boolean again) {
    BarMap map = Books.book(written);
    assertThat(BarMapRules.check(map)).isEmpty();
    Plan plan =
        Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL.withRepeatsAfterJump(again));
    assertThat(plan.findings()).isEmpty();
    return Books.order(plan);
  }
}
