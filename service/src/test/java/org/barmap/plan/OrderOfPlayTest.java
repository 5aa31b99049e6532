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

  /** Source: as above. */
  @ParameterizedTest
  @CsvSource(delimiter = ';', textBlock = PublishedOrders.MUSIC21_DA_CAPO)
  void repeatsAfterDaCapoAreTheSettingsChoice(String written, boolean again, int bars) {
    assertThat(orderOf(written, again).split(" ")).hasSize(bars);
  }

  /** Source: tests of the partitura toolkit, named there. */
  @ParameterizedTest
  @CsvSource(delimiter = ';', textBlock = PublishedOrders.PARTITURA)
  void endingsAndDaCapoAlFine(boolean again, String order) {
    assertThat(orderOf(PublishedOrders.PARTITURA_BARS, again)).isEqualTo(order);
  }

  /** Source: forms the music21 toolkit rejects (as above); here each is a clear finding. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock = PublishedOrders.MUSIC21_REJECTS + "1 2 3@dc@w:D.C._al_Fine 4 ; fine-missing")
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
