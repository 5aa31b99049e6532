package org.barmap.sign.net;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.util.List;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class PenNetTest {

  @Test
  void theMeanOfTwoOddsIsGeometric() {
    assertThat(PenNet.mean(.5, .5)).isEqualTo(.5);
    assertThat(PenNet.mean(.9, .1)).isCloseTo(.5, within(1e-9));
    // odds of 1 and 81 make 9
    assertThat(PenNet.mean(.5, 81 / 82.0)).isCloseTo(.9, within(1e-9));
    assertThat(PenNet.mean(0, 1)).isEqualTo(.5);
  }

  /** Four notes with stems and a leaning barline, four times. */
  private static void music(Graphics2D g) {
    for (int bar = 0; bar < 4; bar++) {
      int x = 120 + 320 * bar;
      for (int note = 0; note < 4; note++) {
        g.fillOval(x + 64 * note, 176, 18, 14);
        g.setStroke(new BasicStroke(3));
        g.drawLine(x + 64 * note + 17, 182, x + 64 * note + 17, 128);
      }
      g.setStroke(new BasicStroke(4));
      g.drawLine(x + 262, 143, x + 258, 209);
    }
  }

  @Test
  void onlyBarlinesAreReadAnew() {
    StripImage strip = new PaintedStrip(100, PenNetTest::music);
    try (SignNet net = new SignNet()) {
      SignNet.Found found = net.find(strip);
      SignNet.Found drawn = net.byPen(strip, found);
      assertThat(others(drawn)).isEqualTo(others(found));
      List<Double> lines =
          drawn.signs().stream()
              .filter(s -> s.kind() == SignKind.BARLINE && s.probability() > .5)
              .map(RawSign::centre)
              .toList();
      assertThat(lines).hasSize(4);
      for (int bar = 0; bar < 4; bar++) {
        assertThat(lines.get(bar)).isCloseTo((120 + 320 * bar + 260) / 2.0, within(4.0));
      }
    }
  }

  private static List<RawSign> others(SignNet.Found found) {
    return found.signs().stream().filter(s -> s.kind() != SignKind.BARLINE).toList();
  }
}
