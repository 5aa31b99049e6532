package org.barmap.sign;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.Graphics2D;
import java.util.List;
import java.util.function.Consumer;
import org.barmap.map.Enclosure;
import org.junit.jupiter.api.Test;

class FrameTest {

  @Test
  void seesABox() {
    assertThat(around(g -> g.drawRect(100, 40, 56, 56))).isEqualTo(Enclosure.BOX);
  }

  @Test
  void seesACircle() {
    assertThat(around(g -> g.drawOval(100, 40, 56, 56))).isEqualTo(Enclosure.CIRCLE);
  }

  @Test
  void seesABareLetter() {
    assertThat(around(g -> {})).isEqualTo(Enclosure.NONE);
  }

  private static Enclosure around(Consumer<Graphics2D> frame) {
    PaintedStrip strip =
        new PaintedStrip(
            40,
            g -> {
              g.setStroke(new BasicStroke(3));
              g.setFont(new Font(Font.SERIF, Font.BOLD, 40));
              g.drawString("B", 114, 83);
              frame.accept(g);
            });
    return Frame.around(strip, new RawSign(SignKind.REHEARSAL, 49.5, 19.5, 79, 49, 1, List.of()));
  }
}
