package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.Graphics2D;
import java.util.List;
import java.util.function.Consumer;
import org.barmap.map.Enclosure;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.junit.jupiter.api.Test;

class SurroundTest {

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

  /** Bold figures fill their box to its sides but not to its corners. */
  @Test
  void boldFiguresAreNoBox() {
    RawSign low =
        new RawSign(SignKind.BAR_NUMBER, 49.5, 19.5, 67, 33.5, 1, List.of(), Origin.NETWORK);
    Consumer<Graphics2D> figures =
        g -> {
          g.setStroke(new BasicStroke(5));
          g.drawRoundRect(102, 42, 12, 21, 12, 12);
          g.drawRoundRect(118, 42, 12, 21, 12, 12);
        };
    assertThat(Surround.around(new PaintedStrip(40, figures), low)).isEqualTo(Enclosure.NONE);
    Consumer<Graphics2D> frame = g -> g.drawRect(100, 40, 32, 26);
    assertThat(Surround.around(new PaintedStrip(40, frame), low)).isEqualTo(Enclosure.BOX);
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
    return Surround.around(
        strip, new RawSign(SignKind.REHEARSAL, 49.5, 19.5, 79, 49, 1, List.of(), Origin.NETWORK));
  }
}
