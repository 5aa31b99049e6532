package org.barmap.sign.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Sound;
import org.junit.jupiter.api.Test;

/** Heats made by hand; what dots, tuplets and grace notes are worth is common practice. */
class SoundDecoderTest {
  private static final int PLACES = 40;
  private static final int NOTE = 0;
  private static final int REST = 1;
  private static final int QUARTER = 3;
  private static final int EIGHTH = 4;
  private static final int DOT = 6;
  private static final int HALF_NOTE = 8;
  private static final int EIGHTH_NOTE = 10;
  private static final int TUPLET = 14;
  private static final int SMALL = 15;

  private final float[] heat = new float[16 * PLACES];

  private void put(int channel, int place, double p) {
    heat[channel * PLACES + place - 1] = (float) p / 2;
    heat[channel * PLACES + place] = (float) p;
    heat[channel * PLACES + place + 1] = (float) p / 2;
  }

  private List<Sound> decoded() {
    return SoundDecoder.decode(heat, 2 * PLACES);
  }

  /** What the only sound there is worth. */
  private Optional<Double> quarters() {
    assertThat(decoded()).hasSize(1);
    return decoded().get(0).quarters();
  }

  @Test
  void aNoteAndADottedRestStandWhereTheirPeaksAre() {
    put(NOTE, 30, 0.8);
    put(REST, 15, 0.9);
    put(QUARTER, 16, 0.9);
    put(DOT, 15, 0.7);
    assertThat(decoded())
        .containsExactly(
            new Sound((61 - 24) / 8.0, true, Optional.empty(), Optional.empty(), 0.8f),
            new Sound((31 - 24) / 8.0, false, Optional.of(1.5), Optional.of(1.5), 0.9f));
  }

  @Test
  void aRestThatMayBeWorthTwoThingsIsOfUnknownValue() {
    put(REST, 15, 0.9);
    put(QUARTER, 15, 0.6);
    put(EIGHTH, 15, 0.4);
    assertThat(quarters()).isEmpty();
    assertThat(decoded()).singleElement().extracting(Sound::likely).isEqualTo(Optional.of(1.0));
  }

  @Test
  void aDoubtfulDotLeavesTheValueUnknown() {
    put(REST, 15, 0.9);
    put(QUARTER, 15, 0.9);
    put(DOT, 15, 0.35);
    assertThat(quarters()).isEmpty();
  }

  @Test
  void aDottedNoteIsWorthHalfAsMuchAgain() {
    put(NOTE, 30, 0.8);
    put(HALF_NOTE, 31, 0.9);
    put(DOT, 30, 0.9);
    assertThat(quarters()).contains(3.0);
  }

  @Test
  void threeNotesOfATripletFillTheTimeOfTwo() {
    for (int place : new int[] {10, 20, 30}) {
      put(NOTE, place, 0.9);
      put(EIGHTH_NOTE, place, 0.9);
      put(TUPLET, place, 0.9);
    }
    assertThat(decoded()).hasSize(3);
    assertThat(decoded().stream().mapToDouble(s -> s.quarters().orElseThrow()).sum())
        .isCloseTo(1, within(1e-9));
  }

  @Test
  void aGraceNoteIsWorthNothingEvenWithAFlag() {
    put(NOTE, 10, 0.9);
    put(EIGHTH_NOTE, 10, 0.9);
    put(SMALL, 10, 0.8);
    assertThat(quarters()).contains(0.0);
  }

  @Test
  void theValueOfARestIsNotTakenForThatOfANote() {
    put(NOTE, 10, 0.9);
    put(QUARTER, 10, 0.9);
    assertThat(quarters()).isEmpty();
  }

  @Test
  void aDoubtfulTupletLeavesTheValueUnknown() {
    put(NOTE, 10, 0.9);
    put(EIGHTH_NOTE, 10, 0.9);
    put(TUPLET, 10, 0.4);
    assertThat(quarters()).isEmpty();
  }

  @Test
  void nothingIsReadBehindTheStripsEnd() {
    put(NOTE, 35, 0.9);
    assertThat(SoundDecoder.decode(heat, 50)).isEmpty();
  }
}
