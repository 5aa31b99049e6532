package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class KindByTextTest {
  private static final RawSign MARK =
      new RawSign(SignKind.REHEARSAL, 100, 30, 120, 50, .8, List.of(), Origin.NETWORK);

  /** A ring with a cross through it, as codas are drawn (common practice). */
  private static final StripImage CODA =
      new PaintedStrip(
          40,
          g -> {
            g.setStroke(new BasicStroke(4));
            g.drawOval(206, 66, 28, 28);
            g.fillRect(218, 60, 4, 40);
            g.fillRect(200, 78, 40, 4);
          });

  private static final StripImage EMPTY = new PaintedStrip(40, g -> {});

  @Test
  void aWordTakenForAMarkIsAWord() {
    List<Reading> free = List.of(new Reading("Vif", .99));
    KindByText.Text text = KindByText.settle(EMPTY, MARK, List.of(), List.of(), free);
    assertThat(text.kind()).isEqualTo(SignKind.WORD);
    assertThat(text.readings()).isEqualTo(free);
  }

  @Test
  void aRingWithACrossIsACodaWhateverItReads() {
    List<Reading> lost = List.of(new Reading("P", .2));
    assertThat(KindByText.settle(CODA, MARK, lost, lost, lost).kind()).isEqualTo(SignKind.CODA);
  }

  @Test
  void aClearFigureStaysAMark() {
    List<Reading> eight = List.of(new Reading("8", .999));
    assertThat(KindByText.settle(CODA, MARK, eight, eight, eight).kind())
        .isEqualTo(SignKind.REHEARSAL);
  }

  @Test
  void aFramedLetterTakenForABarNumberIsAMark() {
    StripImage box =
        new PaintedStrip(
            40,
            g -> {
              g.setStroke(new BasicStroke(3));
              g.drawRect(201, 61, 38, 38);
            });
    RawSign number = MARK.as(SignKind.BAR_NUMBER);
    List<Reading> letter = List.of(new Reading("G", .99));
    KindByText.Text text = KindByText.settle(box, number, List.of(), letter, letter);
    assertThat(text.kind()).isEqualTo(SignKind.REHEARSAL);
    assertThat(text.readings()).isEqualTo(letter);
  }

  @Test
  void aNumberOfTwoFiguresIsNoSegnoHoweverItsStrokesLie() {
    List<Reading> thirty =
        List.of(new Reading("30", .87), new Reading("50", .05), new Reading("60", .04));
    assertThat(KindByText.settle(CODA, MARK, thirty, thirty, thirty).kind())
        .isEqualTo(SignKind.REHEARSAL);
  }

  @Test
  void whatReadsLikeManyMetersIsNone() {
    RawSign meter = MARK.as(SignKind.METER);
    List<Reading> many =
        List.of(
            new Reading("2/1", .19),
            new Reading("2/8", .17),
            new Reading("7/1", .14),
            new Reading("7/8", .13));
    assertThat(KindByText.isBelieved(meter, many)).isFalse();
    List<Reading> cut = List.of(new Reading("C", .39), new Reading("C|", .3));
    assertThat(KindByText.isBelieved(meter, cut)).isTrue();
  }
}
