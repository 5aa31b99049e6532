package org.barmap.sign;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class BracketTest {

  @Test
  void findsALineWithAHookAndLeavesASlurAndAHairpin() {
    StripImage strip =
        new PaintedStrip(
            80,
            g -> {
              g.fillRect(200, 80, 300, 3); // the bracket's line
              g.fillRect(200, 80, 3, 24); // and its hook
              g.drawLine(600, 60, 800, 100); // a hairpin
              g.drawArc(850, 60, 200, 60, 0, 180); // a slur
              g.fillRect(900, 40, 200, 3); // a line without a hook
            });
    RawSign wrong = new RawSign(SignKind.ENDING, 90, 38, 300, 52, .3, List.of());
    RawSign word = new RawSign(SignKind.WORD, 300, 38, 330, 52, .9, List.of());
    List<RawSign> settled = Bracket.settle(strip, List.of(wrong, word));
    assertThat(settled).extracting(RawSign::kind).containsExactly(SignKind.ENDING, SignKind.WORD);
    assertThat(settled.get(0).x0()).isCloseTo(100, within(1.5));
    assertThat(settled.get(0).x1()).isCloseTo(250, within(1.5));
  }

  @Test
  void aBracketNeedsItsNumeralsWithTheirStop() {
    RawSign ink = new RawSign(SignKind.ENDING, 90, 38, 300, 52, Bracket.INK_ALONE, List.of());
    assertThat(Bracket.isBelieved(ink, List.of(new Reading("1.", .9)))).isTrue();
    assertThat(Bracket.isBelieved(ink, List.of(new Reading("1", .9)))).isFalse();
    assertThat(Bracket.isBelieved(ink, List.of())).isFalse();
  }
}
