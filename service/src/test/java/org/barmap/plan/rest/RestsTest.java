package org.barmap.plan.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.plan.Changes;
import org.junit.jupiter.api.Test;

/** Long rests; parts break them at marks, meters and tempi (common practice). */
class RestsTest {

  @Test
  void restsNextToEachOtherAreOneWithLandmarks() {
    List<LongRest> rests =
        Changes.plan("1 2@mr16 18@mr12@mB 30@mr5@mC@3/4 35@mr4@mD@w:q_=_90 39", "").rests();
    assertThat(rests).hasSize(1);
    LongRest rest = rests.get(0);
    assertThat(rest.bars()).isEqualTo(37);
    assertThat(rest.first()).isEqualTo("b2");
    assertThat(rest.entrance()).contains("b39");
    assertThat(rest.landmarks())
        .extracting(l -> l.after() + " " + l.kind() + " " + l.what())
        .containsExactly("16 mark B", "28 mark C", "28 meter 3/4", "33 mark D", "33 tempo q = 90");
    assertThat(rest.inBar()).containsExactly(4, 3);
    assertThat(rest.beats()).contains(28 * 4.0 + 9 * 3);
    assertThat(rest.seconds()).isEmpty();
    assertThat(rest.text())
        .isEqualTo(
            "37 bars rest, counted in 4, then 3; 16 to B; 12 to C, 3/4; 5 to D, q = 90; the last 4"
                + " from D.");
  }

  @Test
  void aCutInsideARestShortensItAndIsALandmark() {
    LongRest rest = Changes.plan("1 2@mr20 22", "cut 6 to 15").rests().get(0);
    assertThat(rest.bars()).isEqualTo(10);
    assertThat(rest.landmarks()).extracting(LongRest.Landmark::after).containsExactly(4);
    assertThat(rest.landmarks().get(0).what()).isEqualTo("on at 16");
  }

  @Test
  void aRestThatComesAgainIsListedOnce() {
    List<LongRest> rests = Changes.plan("|:1 2@mr8 10:| 11", "").rests();
    assertThat(rests).hasSize(1);
    assertThat(rests.get(0).passes()).containsExactly(1, 2);
  }

  @Test
  void shortRestsAreLeftOut() {
    assertThat(Changes.plan("1 2@mr3 5 6@rest 7", "").rests()).isEmpty();
  }

  /** A vamp on some bars of a rest is counted where it stands (common practice). */
  @Test
  void aVampInARestIsCountedInItsPlace() {
    LongRest rest =
        Changes.plan("1 2@mr16 18", "vamp 6 to 9 till the cart stops, out any time").rests().get(0);
    assertThat(rest.count()).containsExactly("4", "vamp 4", "8");
    assertThat(rest.text())
        .isEqualTo(
            "16 bars rest and the vamp 6-9, count 4 in a bar: 4, vamp 4 till the cart stops (out"
                + " any time), then 8.");
  }

  /** What stands inside is said beside the count, which goes by pieces. */
  @Test
  void countedBarsInARestAreCountedTogether() {
    LongRest rest = Changes.plan("1 2@mr4 6@mr8@mB 14", "play 3 to 4 three times").rests().get(0);
    assertThat(rest.count()).containsExactly("1", "3x 2", "9");
    assertThat(rest.text())
        .isEqualTo("16 bars rest, count 4 in a bar: 1, 3x 2, 9; inside it B after 8.");
  }
}
