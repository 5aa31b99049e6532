package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class CueRestTest {

  /** A filled head of cue size with its stem. */
  private static void cue(Graphics2D g, int x, int y) {
    g.fillOval(x, y, 14, 11);
    g.fillRect(x + 12, y - 40, 2, 45);
  }

  private static Sign sign(SignKind kind, double from, double to, String text) {
    return new Sign(
        kind,
        from,
        to,
        -6,
        -4,
        Outline.box(0, 0, 1, 1),
        .95,
        List.of(new Reading(text, .95)),
        Optional.empty());
  }

  private static final List<Sign> BAR =
      List.of(
          sign(SignKind.BARLINE, 20, 20.2, "single"), sign(SignKind.BARLINE, 35, 35.2, "single"));

  private static List<Sign> rests(StripImage strip, List<Sign> signs) {
    return CueRest.withRests(strip, signs, Heads.of(List.of()), (from, to, named) -> false);
  }

  /** A filled head as high as a space with its stem. */
  private static void note(Graphics2D g, int x, int y) {
    g.fillOval(x, y, 20, 16);
    g.fillRect(x + 18, y - 48, 2, 56);
  }

  private static void block(Graphics2D g, int space, int top) {
    g.fillRect(48 + 16 * space, top, 19, 8);
  }

  private static double probability(List<Sign> signs, SignKind kind) {
    return signs.stream()
        .filter(s -> s.kind() == kind)
        .mapToDouble(Sign::probability)
        .max()
        .orElse(0);
  }

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
    List<Sign> signs = rests(CUES, with(sign(SignKind.WORD, 22, 24, "Hn. 2")));
    assertThat(signs).filteredOn(s -> s.kind() == SignKind.REST).hasSize(1);
  }

  @Test
  void withoutANameOrABlockItIsNot() {
    assertThat(rests(CUES, with(sign(SignKind.WORD, 22, 24, "dolce")))).hasSize(3);
    StripImage notes = new PaintedStrip(60, g -> cue(g, 48 + 16 * 23, 180));
    assertThat(rests(notes, with(sign(SignKind.WORD, 22, 24, "Hn.")))).hasSize(3);
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
    assertThat(rests(heads, with(sign(SignKind.WORD, 22, 24, "Hn.")))).hasSize(3);
  }

  @Test
  void smallHeadsUnderANameAreACueBesideARest() {
    StripImage small =
        new PaintedStrip(
            60,
            g -> {
              for (int i = 0; i < 5; i++) {
                cue(g, 48 + 16 * (22 + 2 * i), 170);
              }
            });
    Sign name = sign(SignKind.WORD, 22, 24, "Hn.");
    assertThat(probability(rests(small, with(name)), SignKind.REST)).isGreaterThan(0.5);
  }

  @Test
  void aNameOverFullSizeNotesMakesNoRest() {
    StripImage notes =
        new PaintedStrip(
            60,
            g -> {
              note(g, 48 + 16 * 22, 170);
              note(g, 48 + 16 * 24, 170);
              block(g, 28, 176 - 16);
            });
    Sign name = sign(SignKind.WORD, 22, 24, "Hn.");
    assertThat(probability(rests(notes, with(name)), SignKind.REST)).isZero();
  }

  @Test
  void aSilentBarHasARestWithoutANameOrABlock() {
    List<Sign> silent =
        CueRest.withRests(
            CUES, BAR, Heads.of(List.of()), (from, to, named) -> from >= 20 && to < 36);
    assertThat(probability(silent, SignKind.REST)).isGreaterThan(0.5);
    assertThat(
            probability(
                rests(new PaintedStrip(60, g -> note(g, 48 + 16 * 24, 170)), BAR), SignKind.REST))
        .isZero();
  }

  @Test
  void anUnsureRestIsOneWhereTheBarIsSilent() {
    List<Sign> signs = List.of(BAR.get(0), seen(SignKind.REST, 26, -1).likely(0.3), BAR.get(1));
    assertThat(probability(rests(CUES, signs), SignKind.REST)).isLessThan(0.5);
    List<Sign> silent =
        CueRest.withRests(CUES, signs, Heads.of(List.of()), (from, to, named) -> true);
    assertThat(probability(silent, SignKind.REST)).isGreaterThan(0.5);
  }

  @Test
  void aCueGoesOnUnderOneName() {
    List<Sign> two = new ArrayList<>(BAR);
    two.add(sign(SignKind.BARLINE, 50, 50.2, "single"));
    CueRest.SilentBars whenNamed = (from, to, named) -> named && from >= 20;
    assertThat(CueRest.withRests(CUES, two, Heads.of(List.of()), whenNamed)).hasSize(3);
    two.add(sign(SignKind.WORD, 22, 24, "Hn."));
    List<Sign> silent = CueRest.withRests(CUES, two, Heads.of(List.of()), whenNamed);
    assertThat(silent.stream().filter(s -> s.kind() == SignKind.REST)).hasSize(2);
  }

  private static Sign seen(SignKind kind, double from, double top) {
    return new Sign(
        kind,
        from,
        from + 1.2,
        top,
        top + 0.5,
        Outline.box(0, 0, 1, 1),
        .7,
        List.of(),
        Optional.empty());
  }

  /** Common practice: a whole-bar rest hangs from its line, a half rest sits on it. */
  @Test
  void aBlockOnALineBesideAStemLastsHalfABar() {
    StripImage half =
        new PaintedStrip(
            60,
            g -> {
              g.drawOval(48 + 16 * 23, 180, 20, 16);
              g.fillRect(48 + 16 * 23 + 18, 140, 2, 48);
              block(g, 28, 176 - 8);
            });
    assertThat(probability(rests(half, with(seen(SignKind.REST, 28, -.5))), SignKind.REST))
        .isLessThan(0.5);
    assertThat(probability(rests(half, with(seen(SignKind.REST, 28, -1))), SignKind.REST))
        .isGreaterThan(0.5);
    StripImage alone = new PaintedStrip(60, g -> block(g, 28, 176 - 8));
    assertThat(probability(rests(alone, with(seen(SignKind.REST, 28, -.5))), SignKind.REST))
        .isGreaterThan(0.5);
  }

  /** Common practice: a bar-repeat sign stands alone in its bar. */
  @Test
  void aBarRepeatSignBesideNotesIsNone() {
    StripImage notes = new PaintedStrip(60, g -> note(g, 48 + 16 * 22, 170));
    Sign repeat = seen(SignKind.BAR_REPEAT, 28, -1);
    assertThat(probability(rests(notes, with(repeat)), SignKind.BAR_REPEAT)).isLessThan(0.5);
    StripImage empty = new PaintedStrip(60, g -> {});
    assertThat(probability(rests(empty, with(repeat)), SignKind.BAR_REPEAT)).isGreaterThan(0.5);
  }

  @Test
  void aRestRightAfterAKeyIsFound() {
    StripImage rest = new PaintedStrip(60, g -> block(g, 26, 176 - 16));
    Sign key = sign(SignKind.KEY, 21, 25, "4#");
    assertThat(probability(rests(rest, with(key)), SignKind.REST)).isGreaterThan(0.5);
    StripImage note =
        new PaintedStrip(
            60,
            g -> {
              block(g, 26, 176 - 16);
              note(g, 48 + 16 * 29, 170);
            });
    assertThat(probability(rests(note, with(key)), SignKind.REST)).isZero();
  }
}
