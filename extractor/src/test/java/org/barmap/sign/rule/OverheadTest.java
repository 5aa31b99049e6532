package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.Graphics2D;
import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class OverheadTest {

  private static void box(Graphics2D g, int x, String letter) {
    g.setStroke(new BasicStroke(3));
    g.drawRect(x, 40, 44, 44);
    g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, 36));
    g.drawString(letter, x + 9, 76);
  }

  private static StripImage written(String face, int style, int size, String text) {
    return new PaintedStrip(
        80,
        g -> {
          g.setFont(new Font(face, style, size));
          g.drawString(text, 240, 80);
        });
  }

  @Test
  void aFrameNobodySawIsAddedOnce() {
    StripImage strip =
        new PaintedStrip(
            80,
            g -> {
              box(g, 200, "B");
              box(g, 600, "C");
            });
    RawSign seen = new RawSign(SignKind.REHEARSAL, 100, 20, 122, 42, .9, List.of(), Origin.NETWORK);
    List<RawSign> all = Overhead.withFrames(strip, List.of(seen));
    assertThat(all).hasSize(2);
    assertThat(all.get(1).x0()).isBetween(298.0, 302.0);
  }

  @Test
  void aLargeLetterIsNoFrame() {
    StripImage strip = written(Font.SANS_SERIF, Font.PLAIN, 60, "ODQ");
    assertThat(Overhead.withFrames(strip, List.of())).isEmpty();
  }

  @Test
  void aFrameMustHoldWhatAMarkMaySay() {
    RawSign frame = new RawSign(SignKind.REHEARSAL, 1, 1, 20, 20, .8, List.of(), Origin.FRAME);
    assertThat(Overhead.isBelieved(frame, List.of(new Reading("C", .99)))).isTrue();
    assertThat(Overhead.isBelieved(frame, List.of(new Reading("C", .5)))).isFalse();
    assertThat(Overhead.isBelieved(frame, List.of())).isFalse();
  }

  @Test
  void lettersBecomeALineAndItsWords() {
    StripImage strip = written(Font.SERIF, Font.BOLD, 40, "No. 7  Low Tide");
    List<RawSign> lines = Overhead.lines(strip);
    assertThat(lines).hasSize(1);
    assertThat(TextLine.words(strip, lines.get(0))).hasSize(4);
  }
}
