package org.barmap.sign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Heats made by hand; what dots are worth is common practice. */
class SoundDecoderTest {
  private static final int PLACES = 40;
  private static final int NOTE = 0;
  private static final int REST = 1;
  private static final int QUARTER = 3;
  private static final int EIGHTH = 4;
  private static final int DOT = 6;

  private final float[] heat = new float[7 * PLACES];

  private void put(int channel, int place, double p) {
    heat[channel * PLACES + place - 1] = (float) p / 2;
    heat[channel * PLACES + place] = (float) p;
    heat[channel * PLACES + place + 1] = (float) p / 2;
  }

  private List<Sound> decoded() {
    return SoundDecoder.decode(heat, 2 * PLACES);
  }

  @Test
  void aNoteAndADottedRestStandWhereTheirPeaksAre() {
    put(NOTE, 30, 0.8);
    put(REST, 15, 0.9);
    put(QUARTER, 16, 0.9);
    put(DOT, 15, 0.7);
    assertThat(decoded())
        .containsExactly(
            new Sound((61 - 24) / 8.0, true, Optional.empty(), 0.8f),
            new Sound((31 - 24) / 8.0, false, Optional.of(1.5), 0.9f));
  }

  @Test
  void aRestThatMayBeWorthTwoThingsIsOfUnknownValue() {
    put(REST, 15, 0.9);
    put(QUARTER, 15, 0.6);
    put(EIGHTH, 15, 0.4);
    assertThat(decoded()).singleElement().extracting(Sound::quarters).isEqualTo(Optional.empty());
  }

  @Test
  void aDoubtfulDotLeavesTheValueUnknown() {
    put(REST, 15, 0.9);
    put(QUARTER, 15, 0.9);
    put(DOT, 15, 0.35);
    assertThat(decoded()).singleElement().extracting(Sound::quarters).isEqualTo(Optional.empty());
  }

  @Test
  void nothingIsReadBehindTheStripsEnd() {
    put(NOTE, 35, 0.9);
    assertThat(SoundDecoder.decode(heat, 50)).isEmpty();
  }
}
