package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

/** Barlines of one engraver are parallel (common practice); a hand's are not quite. */
class PenLinesTest {

  private static final int LINES = 9;

  /** Barlines every ten spaces, each leaning by so many fine pixels from top to bottom. */
  private static List<PenLines.Own> page(IntToDoubleFunction lean) {
    List<RawSign> signs = new ArrayList<>();
    StripImage strip =
        new PaintedStrip(
            110,
            g -> {
              g.setRenderingHint(
                  RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
              g.setStroke(new BasicStroke(3));
              for (int i = 1; i <= LINES; i++) {
                double half = lean.applyAsDouble(i) / 2;
                g.draw(new Line2D.Double(160 * i + half, 144, 160 * i - half, 208));
                signs.add(line(80 * i));
              }
            });
    return List.of(new PenLines.Own(strip, signs));
  }

  private static RawSign line(double x) {
    List<Reading> single = List.of(new Reading("single", 1));
    return new RawSign(SignKind.BARLINE, x - 1, 72, x + 1, 104, .99, single, Origin.NETWORK);
  }

  @Test
  void uprightLinesArePrint() {
    assertThat(PenLines.onPage(page(i -> 0))).isFalse();
  }

  @Test
  void aCrookedPageIsPrintAllTheSame() {
    assertThat(PenLines.onPage(page(i -> 8))).isFalse();
  }

  /** Near the gutter of an open book each line leans a little more than the one before it. */
  @Test
  void aPageBentTowardsItsGutterIsPrintAllTheSame() {
    assertThat(PenLines.onPage(page(i -> 1.0 * i))).isFalse();
  }

  @Test
  void linesThatLeanThisWayAndThatAreByHand() {
    assertThat(PenLines.onPage(page(i -> 6.0 * (i % 3 - 1)))).isTrue();
  }

  @Test
  void aFewLinesDoNotTell() {
    List<PenLines.Own> page = page(i -> 6.0 * (i % 3 - 1));
    List<RawSign> few = page.get(0).signs().subList(0, 3);
    assertThat(PenLines.onPage(List.of(new PenLines.Own(page.get(0).strip(), few)))).isFalse();
  }
}
