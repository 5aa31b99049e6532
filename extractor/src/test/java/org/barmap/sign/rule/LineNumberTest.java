package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Font;
import java.awt.Graphics2D;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.barmap.map.Point;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

/** Fine pixels: 16 a space, the staff begins at 48, its middle line is at 176. */
class LineNumberTest {

  private static List<RawSign> with(Consumer<Graphics2D> painter, RawSign... seen) {
    PaintedStrip strip =
        new PaintedStrip(
            40,
            g -> {
              g.setFont(new Font(Font.SERIF, Font.PLAIN, 30));
              painter.accept(g);
            });
    return LineNumber.with(strip, List.of(seen));
  }

  @Test
  void findsAFigureThatStandsAlone() {
    assertThat(with(g -> g.drawString("5", 50, 110)))
        .singleElement()
        .satisfies(s -> assertThat(s.kind()).isEqualTo(SignKind.BAR_NUMBER))
        .satisfies(s -> assertThat(s.x0()).isBetween(24.0, 28.0))
        .satisfies(s -> assertThat(s.y1()).isBetween(53.0, 57.0));
  }

  @Test
  void takesAllFiguresOfANumber() {
    assertThat(with(g -> g.drawString("124", 30, 110)))
        .singleElement()
        .satisfies(s -> assertThat(s.width()).isGreaterThan(18));
  }

  @Test
  void aWordIsNoNumber() {
    assertThat(with(g -> g.drawString("Allegro", 50, 110))).isEmpty();
  }

  @Test
  void whatStandsElsewhereIsNone() {
    assertThat(with(g -> g.drawString("5", 140, 110))).isEmpty();
    assertThat(with(g -> g.drawString("5", 50, 60))).isEmpty();
  }

  @Test
  void whatTheNetworkSawIsNotFoundAgain() {
    RawSign seen = new RawSign(SignKind.REHEARSAL, 24, 44, 34, 56, 0.7, List.of(), Origin.NETWORK);
    assertThat(with(g -> g.drawString("5", 50, 110), seen)).containsExactly(seen);
  }

  @Test
  void onlyAClearNumberIsBelieved() {
    RawSign seen =
        new RawSign(SignKind.BAR_NUMBER, 24, 44, 34, 56, 0.55, List.of(), Origin.NETWORK);
    RawSign lonely =
        new RawSign(SignKind.BAR_NUMBER, 24, 44, 34, 56, 0.55, List.of(), Origin.FIGURES);
    assertThat(LineNumber.isBelieved(lonely, List.of(new Reading("5", 0.99)))).isTrue();
    assertThat(LineNumber.isBelieved(lonely, List.of(new Reading("5", 0.6)))).isFalse();
    assertThat(LineNumber.isBelieved(lonely.as(SignKind.SEGNO), List.of())).isFalse();
    // As likely, but seen by the network: how it was found counts, not the figure.
    assertThat(LineNumber.isBelieved(seen, List.of(new Reading("5", 0.6)))).isTrue();
    assertThat(LineNumber.isBelieved(seen.as(SignKind.SEGNO), List.of())).isTrue();
    assertThat(LineNumber.isBelieved(seen, List.of(new Reading("1", 0.13)))).isFalse();
  }

  /** A strip beyond whose left edge, at 32 fine pixels before it, there is ink or none. */
  private static StripImage inkBefore(int from, int to) {
    return new StripImage() {
      @Override
      public int width() {
        return 320;
      }

      @Override
      public byte[] gray() {
        byte[] paper = new byte[width() * HEIGHT];
        Arrays.fill(paper, (byte) 255);
        return paper;
      }

      @Override
      public int fineBefore() {
        return 32;
      }

      @Override
      public byte[] fine(int left, int top, int right, int bottom) {
        byte[] part = new byte[(right - left) * (bottom - top)];
        for (int i = 0; i < part.length; i++) {
          int u = left + i % (right - left);
          part[i] = (byte) (u >= from && u < to ? 0 : 255);
        }
        return part;
      }

      @Override
      public Point toFile(double u, double v) {
        return new Point(u, v);
      }
    };
  }

  @Test
  void aFigureBeyondTheStripBelongsToTheNumber() {
    RawSign fourteen =
        new RawSign(SignKind.BAR_NUMBER, 1, 80, 18, 92, 0.8, List.of(), Origin.NETWORK);
    assertThat(LineNumber.whole(inkBefore(-12, -4), fourteen).x0()).isEqualTo(-6);
    // Far off, or without end, as a page's edge: not the number's.
    assertThat(LineNumber.whole(inkBefore(-30, -20), fourteen)).isEqualTo(fourteen);
    assertThat(LineNumber.whole(inkBefore(-32, -2), fourteen)).isEqualTo(fourteen);
  }
}
