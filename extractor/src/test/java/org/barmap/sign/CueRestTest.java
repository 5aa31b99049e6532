package org.barmap.sign;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Graphics2D;
import java.util.List;
import org.barmap.map.Outline;
import org.junit.jupiter.api.Test;

class CueRestTest {

  /** A filled head of cue size with its stem. */
  private static void cue(Graphics2D g, int x, int y) {
    g.fillOval(x, y, 14, 11);
    g.fillRect(x + 12, y - 40, 2, 45);
  }

  private static Sign sign(SignKind kind, double from, double to, String text) {
    return new Sign(
        kind, from, to, -6, -4, Outline.box(0, 0, 1, 1), .95, List.of(new Reading(text, .95)));
  }

  private static final List<Sign> BAR =
      List.of(
          sign(SignKind.BARLINE, 20, 20.2, "single"), sign(SignKind.BARLINE, 35, 35.2, "single"));

  private static List<Sign> with(Sign word) {
    return List.of(BAR.get(0), word, BAR.get(1));
  }

  /** A rest hanging from a ledger line over the staff, between cue notes. */
  private static final StripImage CUES =
      new PaintedStrip(
          60,
          g -> {
            cue(g, 48 + 16 * 23, 180);
            cue(g, 48 + 16 * 29, 190);
            g.fillRect(48 + 16 * 26, 176 - 48, 19, 8);
            g.fillRect(48 + 16 * 26 - 5, 176 - 49, 29, 2);
          });

  @Test
  void aNamedCueWithABlockIsARest() {
    List<Sign> signs = CueRest.withRests(CUES, with(sign(SignKind.WORD, 22, 24, "Hn. 2")));
    assertThat(signs).filteredOn(s -> s.kind() == SignKind.REST).hasSize(1);
  }

  @Test
  void withoutANameOrABlockItIsNot() {
    assertThat(CueRest.withRests(CUES, with(sign(SignKind.WORD, 22, 24, "dolce")))).hasSize(3);
    StripImage notes = new PaintedStrip(60, g -> cue(g, 48 + 16 * 23, 180));
    assertThat(CueRest.withRests(notes, with(sign(SignKind.WORD, 22, 24, "Hn.")))).hasSize(3);
  }

  @Test
  void aFullSizeHeadIsNoBlock() {
    StripImage heads =
        new PaintedStrip(
            60,
            g -> {
              for (int line = -3; line < 3; line++) {
                g.fillOval(48 + 16 * (24 + line), 176 + 16 * line, 20, 15);
              }
            });
    assertThat(CueRest.withRests(heads, with(sign(SignKind.WORD, 22, 24, "Hn.")))).hasSize(3);
  }
}
