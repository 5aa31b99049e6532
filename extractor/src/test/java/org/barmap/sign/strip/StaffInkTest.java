package org.barmap.sign.strip;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.Color;
import org.junit.jupiter.api.Test;

class StaffInkTest {

  /** Fine pixels: 16 a space, the staff begins at 48. */
  private static PaintedStrip blank(int from, int to) {
    return new PaintedStrip(
        60,
        g -> {
          g.setColor(Color.WHITE);
          g.fillRect(from, 0, to - from, 320);
        });
  }

  @Test
  void linesBeginBehindTheGutter() {
    // The facing page's staff ends 10 spaces in, the own one begins 5 spaces later.
    PaintedStrip strip = blank(48 + 160, 48 + 240);
    assertThat(StaffInk.begin(strip)).isCloseTo(15, within(0.25));
  }

  @Test
  void aShortGapEndsNoStaff() {
    assertThat(StaffInk.begin(blank(48 + 160, 48 + 192))).isZero();
  }
}
