package org.barmap.sign.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class EndingReachTest {

  private static final StripImage STRIP = new PaintedStrip(80, g -> {});

  private static Heats under(int[]... runs) {
    float[] lines = new float[9 * 320];
    for (int[] r : runs) {
      Arrays.fill(lines, 8 * 320 + r[0] / 2, 8 * 320 + r[1] / 2, 0.9f);
    }
    return new Heats(lines, new float[0], new float[0], 160);
  }

  private static RawSign begin(double x) {
    return new RawSign(SignKind.ENDING, x, 30, x + 40, 44, .8, List.of(), Origin.NETWORK);
  }

  @Test
  void aBracketReachesAsFarAsTheRowSaysAndEndsWhereTheNextBegins() {
    List<RawSign> settled =
        EndingReach.settle(under(new int[] {200, 420}), STRIP, List.of(begin(300), begin(200)));
    assertThat(settled).hasSize(2);
    assertThat(settled.get(0).x0()).isEqualTo(200);
    assertThat(settled.get(0).x1()).isCloseTo(298, within(1.0));
    assertThat(settled.get(1).x1()).isCloseTo(420, within(2.0));
  }

  @Test
  void smallGapsAreBridgedAndABoxWithoutARowStays() {
    List<RawSign> settled =
        EndingReach.settle(
            under(new int[] {100, 150}, new int[] {160, 240}),
            STRIP,
            List.of(begin(100), begin(400)));
    assertThat(settled.get(0).x1()).isCloseTo(240, within(2.0));
    assertThat(settled.get(1).x1()).isEqualTo(440);
  }

  @Test
  void aBracketFromTheLineBeforeHasNoNumbersOfItsOwn() {
    List<RawSign> settled =
        EndingReach.settle(under(new int[] {60, 300}), STRIP, List.of(begin(200)));
    RawSign on = settled.get(1);
    assertThat(on.readings()).extracting(Reading::text).containsExactly(Sign.GOES_ON);
    assertThat(on.x0()).isCloseTo(60, within(2.0));
    assertThat(on.x1()).isEqualTo(200);
    assertThat(EndingReach.settle(under(new int[] {400, 500}), STRIP, List.of())).isEmpty();
  }
}
