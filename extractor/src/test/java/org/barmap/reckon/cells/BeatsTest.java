package org.barmap.reckon.cells;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Sound;
import org.junit.jupiter.api.Test;

/** Notes that add up to bars (common practice: a bar's notes and rests add up to its meter). */
class BeatsTest {

  private static final List<Beats.Length> FOUR = List.of(new Beats.Length(0, 4));

  private static Sound note(double at, double quarters) {
    return new Sound(at, true, Optional.of(quarters), Optional.of(quarters), 0.9);
  }

  private static List<Sound> quarters(double from, int count) {
    List<Sound> out = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      out.add(note(from + 4 * i, 1));
    }
    return out;
  }

  @Test
  void fourQuartersAreOneBarAndEightAreTwo() {
    Beats beats = new Beats(quarters(2, 12), FOUR);
    assertThat(beats.fill(0, 16, 0).bars()).isEqualTo(Fill.Bars.ONE);
    assertThat(beats.fill(0, 32, 0)).isEqualTo(new Fill(Fill.Bars.TWO, 1));
    assertThat(beats.fill(0, 48, 0).bars()).isEqualTo(Fill.Bars.THREE);
    assertThat(beats.fill(0, 8, 0)).isEqualTo(new Fill(Fill.Bars.OTHER, -1));
  }

  @Test
  void tripletsAddUpDespiteTheirFractions() {
    List<Sound> sounds = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      sounds.add(note(2 + 2 * i, 1.0 / 3));
    }
    assertThat(new Beats(sounds, FOUR).fill(0, 30, 0).bars()).isEqualTo(Fill.Bars.ONE);
  }

  @Test
  void aSignForAWholeBarCountsAsOneBesideTheNotes() {
    Beats beats = new Beats(quarters(12, 4), FOUR);
    assertThat(beats.fill(0, 30, 1).bars()).isEqualTo(Fill.Bars.TWO);
  }

  @Test
  void anUnknownValueMakesNoSumExact() {
    List<Sound> sounds = new ArrayList<>(quarters(2, 7));
    sounds.add(new Sound(30, true, Optional.empty(), Optional.empty(), 0.9));
    Fill fill = new Beats(sounds, FOUR).fill(0, 34, 0);
    assertThat(fill.bars()).isEqualTo(Fill.Bars.OTHER);
    assertThat(fill.octaves()).isEqualTo(1);
  }

  @Test
  void withoutNotesOrWithoutAMeterNothingIsKnown() {
    assertThat(new Beats(List.of(), FOUR).fill(0, 30, 0)).isEqualTo(Fill.UNKNOWN);
    assertThat(new Beats(quarters(2, 4), List.of()).fill(0, 30, 0)).isEqualTo(Fill.UNKNOWN);
    assertThat(Beats.NONE.fill(0, 30, 0)).isEqualTo(Fill.UNKNOWN);
  }

  @Test
  void twoSoundsThatBeginTogetherCountOnce() {
    List<Sound> sounds = new ArrayList<>(quarters(2, 4));
    sounds.add(new Sound(2.3, true, Optional.of(2.0), Optional.of(2.0), 0.6));
    assertThat(new Beats(sounds, FOUR).fill(0, 17, 0).bars()).isEqualTo(Fill.Bars.ONE);
  }

  @Test
  void aMissedBarlineStandsJustBeforeTheNoteThatBeginsTheNextBar() {
    Beats beats = new Beats(quarters(2, 8), FOUR);
    assertThat(beats.endOfBar(0, 32, 1).orElseThrow()).isBetween(14.5, 17.5);
    assertThat(beats.endOfBar(0, 32, 2)).isEmpty();
  }

  @Test
  void aMeterCountsFromTheBarItBegins() {
    List<Beats.Length> lengths =
        List.of(new Beats.Length(Double.NEGATIVE_INFINITY, 4), new Beats.Length(19, 3));
    Beats beats = new Beats(quarters(2, 7), lengths);
    assertThat(beats.bar(0, 17)).hasValue(4);
    assertThat(beats.bar(17, 32)).hasValue(3);
  }
}
