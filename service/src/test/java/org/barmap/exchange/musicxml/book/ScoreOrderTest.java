package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.rule.BarMapRules;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.PublishedOrders;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The order of play of books that come in as MusicXML, restated from published toolkits' tests. */
class ScoreOrderTest {

  /** Source: repeat-expansion tests of the music21 toolkit (test_repeat.py, commit 3146cb0). */
  @ParameterizedTest
  @CsvSource(delimiter = ';', textBlock = PublishedOrders.MUSIC21)
  void barsSoundInTheOrderTheSourceSays(String written, String order) throws Exception {
    assertThat(order(written, false)).isEqualTo(order);
  }

  /** Source: as above. */
  @ParameterizedTest
  @CsvSource(delimiter = ';', textBlock = PublishedOrders.MUSIC21_DA_CAPO)
  void repeatsAfterDaCapoAreTheSettingsChoice(String written, boolean again, int bars)
      throws Exception {
    assertThat(order(written, again).split(" ")).hasSize(bars);
  }

  /** Source: tests of the partitura toolkit, named there. */
  @ParameterizedTest
  @CsvSource(delimiter = ';', textBlock = PublishedOrders.PARTITURA)
  void endingsAndDaCapoAlFine(boolean again, String order) throws Exception {
    assertThat(order(PublishedOrders.PARTITURA_BARS, again)).isEqualTo(order);
  }

  /** Source: the public Humdrum editions named at {@code RealPiecesTest}. */
  @ParameterizedTest(name = "{0}")
  @MethodSource("org.barmap.plan.RealPiecesTest#pieces")
  void writtenAndPlayedBars(String piece, String written, int writtenBars, int playedBars)
      throws Exception {
    NumberPlan number = plan(WrittenScore.book(written), false).numbers().get(0);
    assertThat(number.written()).as(piece).isEqualTo(writtenBars);
    assertThat(number.played().bars()).as(piece).isEqualTo(playedBars);
  }

  /** Source: forms the music21 toolkit rejects (as above); here each is a clear finding. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock = PublishedOrders.MUSIC21_REJECTS + "1 2 3@w:D.C._al_Fine 4 ; fine-missing")
  void whatTheSourceRejectsIsAFinding(String written, String code) throws Exception {
    Plan plan = plan(WrittenScore.book(written), false);
    assertThat(plan.findings().stream().map(PlanFinding::code)).contains(code);
  }

  private static String order(String written, boolean again) throws Exception {
    BarMap map = WrittenScore.book(written);
    assertThat(BarMapRules.check(map)).isEmpty();
    Plan plan = plan(map, again);
    assertThat(plan.findings()).isEmpty();
    Map<String, Integer> numbers =
        map.bars().stream().collect(Collectors.toMap(Bar::id, Bar::number));
    return plan.numbers().stream()
        .flatMap(n -> n.order().stream())
        .map(e -> String.valueOf(numbers.get(e.bar())))
        .collect(Collectors.joining(" "));
  }

  private static Plan plan(BarMap map, boolean again) {
    return Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL.withRepeatsAfterJump(again));
  }
}
