package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Graphics2D;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StaffInk;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class NoteInkTest {

  /** Two strokes and two slanted bars, 2.8 spaces tall: a sharp as engravers draw it. */
  private static void sharp(Graphics2D g, int x, int line) {
    int y = 176 + 8 * line;
    g.fillRect(x, y - 22, 2, 45);
    g.fillRect(x + 7, y - 24, 2, 45);
    g.fillRect(x - 4, y - 10, 17, 4);
    g.fillRect(x - 4, y + 6, 17, 4);
  }

  private static void sharps(Graphics2D g, int count, int space) {
    for (int i = 0; i < count; i++) {
      sharp(g, 48 + 16 * space + 18 * i, i % 2 == 0 ? -3 : 0);
    }
  }

  /** A filled head with a stem of 3.5 spaces. */
  private static void quarter(Graphics2D g, int x) {
    g.fillOval(x, 168, 20, 15);
    g.fillRect(x + 18, 175 - 56, 2, 56);
  }

  private static Sign line(double at) {
    return new Sign(
        SignKind.BARLINE,
        at - .1,
        at + .1,
        -2,
        2,
        Outline.box(0, 0, 1, 1),
        .98,
        List.of(),
        Optional.empty());
  }

  @Test
  void aCourtesyKeyAfterTheLastBarlineIsNothingWritten() {
    StripImage key = new PaintedStrip(60, g -> sharps(g, 4, 42));
    assertThat(StaffInk.end(key)).isGreaterThan(44);
    assertThat(NoteInk.end(key, List.of(line(20), line(40)))).isEqualTo(40);
  }

  @Test
  void notesAfterTheLastBarlineAreWritten() {
    StripImage notes = new PaintedStrip(60, g -> quarter(g, 48 + 16 * 45));
    assertThat(NoteInk.end(notes, List.of(line(20), line(40)))).isGreaterThan(45);
  }

  @Test
  void musicBeginsAfterAWideKey() {
    StripImage strip =
        new PaintedStrip(
            60,
            g -> {
              sharps(g, 7, 4);
              quarter(g, 48 + 16 * 30);
            });
    assertThat(NoteInk.begin(strip, 0, List.of())).isBetween(28.0, 31.0);
  }
}
