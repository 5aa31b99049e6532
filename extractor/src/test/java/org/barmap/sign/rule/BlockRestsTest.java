package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Graphics2D;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

/**
 * Old rests of several bars (common practice: blocks that hang from the fourth line are one, two or
 * four bars, by how far down they reach, and add up).
 */
class BlockRestsTest {

  /** The fourth line in fine pixels; ten spaces along the staff lie at 208. */
  private static final int LINE = 160;

  private static final int TEN = 208;

  private static void block(Graphics2D g, int x, int bars) {
    g.fillRect(TEN + x, LINE, bars == 1 ? 20 : 10, 8 * bars);
  }

  private static final StripImage SEVEN =
      new PaintedStrip(
          40,
          g -> {
            block(g, -32, 4);
            block(g, -8, 2);
            block(g, 14, 1);
          });

  private static Sign sign(SignKind kind, double from, double to, Reading... says) {
    return new Sign(
        kind, from, to, -4, -2, Outline.box(0, 0, 1, 1), .6, List.of(says), Optional.empty());
  }

  private static final Sign BLOCKS = sign(SignKind.BLOCK_REST, 8, 12.1);

  private static List<Sign> summed(StripImage strip, Sign... signs) {
    return BlockRests.summed(strip, List.of(signs));
  }

  @Test
  void blocksAddUp() {
    assertThat(BlockRests.sum(SEVEN, 7.5, 12.6)).hasValue(7);
    assertThat(BlockRests.sum(SEVEN, 7.5, 11)).hasValue(6);
    assertThat(BlockRests.sum(SEVEN, 20, 30)).isEmpty();
  }

  @Test
  void aHalfRestAndAStemAreNoBlocks() {
    StripImage half = new PaintedStrip(40, g -> g.fillRect(TEN, LINE + 8, 20, 8));
    StripImage stem = new PaintedStrip(40, g -> g.fillRect(TEN, LINE - 30, 5, 60));
    assertThat(BlockRests.sum(half, 7, 13)).isEmpty();
    assertThat(BlockRests.sum(stem, 7, 13)).isEmpty();
  }

  @Test
  void anUnsureNumeralSaysWhatTheBlocksAddUpTo() {
    Sign numeral = sign(SignKind.COUNT, 9.5, 10.5, new Reading("1", .5), new Reading("7", .3));
    assertThat(summed(SEVEN, BLOCKS, numeral).get(1).text()).isEqualTo("7");
    Sign sure = sign(SignKind.COUNT, 9.5, 10.5, new Reading("9", .999));
    assertThat(summed(SEVEN, BLOCKS, sure).get(1).text()).isEqualTo("9");
  }

  @Test
  void whatReadsLikeNoNumeralStaysNone() {
    Sign none = sign(SignKind.COUNT, 9.5, 10.5);
    assertThat(summed(SEVEN, BLOCKS, none)).containsExactly(BLOCKS, none);
  }

  @Test
  void aNumeralOverBlocksTheNetworkMissedIsARest() {
    Sign numeral = sign(SignKind.COUNT, 9.5, 10.5, new Reading("7", .99));
    List<Sign> signs = summed(SEVEN, numeral);
    assertThat(signs).extracting(Sign::kind).containsExactly(SignKind.COUNT, SignKind.BLOCK_REST);
    assertThat(signs).allMatch(s -> s.probability() >= .9);
    Sign eight = sign(SignKind.COUNT, 9.5, 10.5, new Reading("8", .99));
    assertThat(summed(SEVEN, eight)).containsExactly(eight);
  }

  @Test
  void aNumberUnderBlocksIsTheirCountOnlyWhereBothAgree() {
    Sign seven = sign(SignKind.BAR_NUMBER, 9.5, 10.5, new Reading("7", .99));
    assertThat(summed(SEVEN, BLOCKS, seven).get(1).kind()).isEqualTo(SignKind.COUNT);
    Sign bar = sign(SignKind.BAR_NUMBER, 9.5, 10.5, new Reading("57", .99));
    assertThat(summed(SEVEN, BLOCKS, bar).get(1)).isEqualTo(bar);
  }
}
