package org.barmap.edit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.HeldCorrection;
import org.barmap.edit.kind.NumberCorrection;
import org.barmap.map.Bar;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Origin;
import org.junit.jupiter.api.Test;

/** Single corrections of rests, numbers, meters and keys. */
class EditingTest extends SmallBook {

  @Test
  void aRestsCountMovesTheNumbersAfterIt() {
    assertThat(numbers(draft)).containsExactly(1, 2, 3, 6, 7, 8);
    Outcome.Done done = done(new BarCorrection.SetCount("b3", 8));
    assertThat(numbers(done.draft())).containsExactly(1, 2, 3, 11, 12, 13);
    assertThat(done.text()).isEqualTo("Rest at bar 3 of No. 7: 3 → 8");
    Bar bar = done.draft().map().bar("b3").orElseThrow();
    assertThat(bar.origin()).isEqualTo(Origin.CORRECTED);
    assertThat(bar.confidence()).isEqualTo(1);
  }

  @Test
  void aPrintedNumberThatHadToBeJumpedToStays() {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    bars.set(2, bars.get(2).toBuilder().count(1).build()); // read as 1, printed says 6 follows
    Draft misread = Draft.of(draft.map().withBars(bars));
    Outcome.Done done = done(misread, new BarCorrection.SetCount("b3", 3));
    assertThat(numbers(done.draft())).containsExactly(1, 2, 3, 6, 7, 8);
  }

  @Test
  void aNumberSetByAPersonIsAnAnchor() {
    Draft anchored = done(new BarCorrection.SetNumber("b5", 20)).draft();
    assertThat(numbers(anchored)).containsExactly(1, 2, 3, 6, 20, 21);
    Draft later = done(anchored, new BarCorrection.SetCount("b3", 8)).draft();
    assertThat(numbers(later)).containsExactly(1, 2, 3, 11, 20, 21);
  }

  @Test
  void anInsertedBarTakesTheNumberBeforeItAndTheNextCountsOn() {
    Draft named = done(new BarCorrection.SetLabel("b4", "5A")).draft();
    assertThat(numbers(named)).containsExactly(1, 2, 3, 5, 6, 7);
    assertThat(named.map().bar("b4").orElseThrow().label()).contains("5A");
  }

  @Test
  void aMeterHoldsUntilTheNextPrintedOne() {
    Draft five = done(new HeldCorrection.SetMeter("b5", 5, 4)).draft();
    Draft three = done(five, new HeldCorrection.SetMeter("b2", 3, 4)).draft();
    assertThat(three.map().bars().stream().map(b -> b.meter().orElseThrow().beats()))
        .containsExactly(4, 3, 3, 3, 5, 5);
    Draft back = done(three, new HeldCorrection.RemoveMeter("b2")).draft();
    assertThat(back.map().bars().stream().map(b -> b.meter().orElseThrow().beats()))
        .containsExactly(4, 4, 4, 4, 5, 5);
  }

  @Test
  void aKeyHoldsUntilTheNextOneOrTheEndOfTheNumber() {
    Draft flats = done(new HeldCorrection.SetKey("b1", Optional.of(-3))).draft();
    assertThat(keys(flats)).containsExactly(-3, -3, -3, -3, -3, -3);
    Draft sharp = done(flats, new HeldCorrection.SetKey("b3", Optional.of(1))).draft();
    assertThat(keys(sharp)).containsExactly(-3, -3, 1, 1, 1, 1);
    assertThat(done(flats, new HeldCorrection.SetKey("b3", Optional.of(1))).text())
        .isEqualTo("Key at bar 3 of No. 7: 3 flats → 1 sharp");
    Draft two = done(sharp, new NumberCorrection.StartNumber("b5", "8", "Ebb")).draft();
    assertThat(keys(two)).containsExactly(-3, -3, 1, 1, 99, 99);
    Draft four = done(two, new HeldCorrection.SetKey("b2", Optional.of(-4))).draft();
    assertThat(keys(four)).containsExactly(-3, -4, 1, 1, 99, 99);
    Draft back = done(four, new HeldCorrection.RemoveKey("b3")).draft();
    assertThat(keys(back)).containsExactly(-3, -4, -4, -4, 99, 99);
    Draft one = done(back, new NumberCorrection.RemoveNumber("b5", "")).draft();
    assertThat(keys(one)).containsExactly(-3, -4, -4, -4, -4, -4);
    assertThat(refused(new HeldCorrection.SetKey("b1", Optional.of(8))))
        .containsExactly("A key has 0 to 7 sharps, or 1 to 7 flats");
  }

  /** The sharps of every bar, flats counted down, 99 where the key is not known. */
  private static List<Integer> keys(Draft draft) {
    return draft.map().bars().stream().map(b -> b.key().map(k -> k.fifths()).orElse(99)).toList();
  }

  @Test
  void anEndingThatIsNumberedLikeTheOneBeforeItStaysSoHoweverLongThatOneIs() {
    List<Bar> bars = new ArrayList<>(draft.map().bars());
    for (int i = 2; i < 6; i++) {
      // b3, a rest of 3, and b4 are the first ending from 3 on, b5 is the second one
      Bar bar = bars.get(i);
      bars.set(
          i,
          bar.toBuilder().ending(List.of(i < 4 ? 1 : 2)).number(i < 4 ? 3 * i - 3 : i - 1).build());
    }
    Draft alike = draft.withBars(bars);
    assertThat(numbers(alike)).containsExactly(1, 2, 3, 6, 3, 4);
    Draft longer = done(alike, new BarCorrection.SetCount("b3", 8)).draft();
    assertThat(numbers(longer)).containsExactly(1, 2, 3, 11, 3, 4);
    Draft set = done(longer, new BarCorrection.SetNumber("b5", 12)).draft();
    assertThat(numbers(set)).containsExactly(1, 2, 3, 11, 12, 13);
  }

  @Test
  void aNumberThatStartsCutsTheOneItLiesIn() {
    Draft two = done(new NumberCorrection.StartNumber("b4", "8", "Ebb")).draft();
    assertThat(two.map().numbers())
        .containsExactly(
            new MusicalNumber("7", "Low Tide", Optional.of("b1"), Optional.of("b3"), false),
            new MusicalNumber("8", "Ebb", Optional.of("b4"), Optional.of("b6"), false));
    assertThat(numbers(two)).containsExactly(1, 2, 3, 1, 2, 3);
    Draft one = done(two, new NumberCorrection.RemoveNumber("b4", "")).draft();
    assertThat(one.map().numbers()).isEqualTo(draft.map().numbers());
    assertThat(numbers(one)).isEqualTo(numbers(draft));
  }
}
