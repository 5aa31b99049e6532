package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

class SecondLookTest {
  private static final List<Reading> TIE = List.of(new Reading("C", .5), new Reading("C|", .4));

  @Test
  void aMultiBarRestNeedsItsThickBar() {
    RawSign box = new RawSign(SignKind.MULTI_REST, 60, 80, 120, 96, .9, List.of(), Origin.NETWORK);
    StripImage drawn = new PaintedStrip(40, g -> g.fillRect(120, 170, 120, 12));
    StripImage empty = new PaintedStrip(40, g -> {});
    assertThat(SecondLook.thickBar(drawn, box).probability()).isEqualTo(.9);
    assertThat(SecondLook.thickBar(empty, box).probability()).isLessThan(.3);
  }

  private static void common(Graphics2D g) {
    g.setStroke(new BasicStroke(4));
    g.drawArc(104, 160, 24, 32, 60, 240);
  }

  @Test
  void theStrokeTellsCutCommonTime() {
    RawSign box = new RawSign(SignKind.METER, 50, 76, 66, 100, .9, List.of(), Origin.NETWORK);
    StripImage plain = new PaintedStrip(40, SecondLookTest::common);
    StripImage cut =
        new PaintedStrip(
            40,
            g -> {
              common(g);
              g.fillRect(114, 152, 4, 48);
            });
    assertThat(SecondLook.cut(plain, box, TIE).get(0).text()).isEqualTo("C");
    assertThat(SecondLook.cut(cut, box, TIE).get(0).text()).isEqualTo("C|");
  }

  @Test
  void aRestAndItsNumeralSupportEachOther() {
    Sign rest = sign(SignKind.BLOCK_REST, 20, .45, "");
    Sign eight = sign(SignKind.COUNT, 20.5, .7, "8");
    Sign far = sign(SignKind.BLOCK_REST, 60, .45, "");
    List<Sign> signs = SecondLook.support(List.of(rest, eight, far));
    assertThat(signs.get(0).probability()).isGreaterThan(.7);
    assertThat(signs.get(1).probability()).isGreaterThan(.8);
    assertThat(signs.get(2).probability()).isCloseTo(.45, within(1e-9));
  }

  @Test
  void aNumeralOfOneSaysNothingAboutABlockRest() {
    List<Sign> signs =
        SecondLook.support(
            List.of(sign(SignKind.REST, 20, .9, ""), sign(SignKind.COUNT, 20, .9, "1")));
    assertThat(signs).extracting(Sign::kind).doesNotContain(SignKind.BLOCK_REST);
    List<Sign> three =
        SecondLook.support(
            List.of(sign(SignKind.REST, 20, .9, ""), sign(SignKind.COUNT, 20, .9, "3")));
    assertThat(three).extracting(Sign::kind).contains(SignKind.BLOCK_REST);
  }

  private static Sign sign(SignKind kind, double at, double probability, String text) {
    return new Sign(
        kind,
        at - 1,
        at + 1,
        -1,
        1,
        Outline.box(0, 0, 1, 1),
        probability,
        text.isEmpty() ? List.of() : List.of(new Reading(text, .99)),
        Optional.empty());
  }

  @Test
  void aPaleMarkShowsThroughFromTheBack() {
    RawSign mark = new RawSign(SignKind.REHEARSAL, 100, 20, 124, 44, .8, List.of(), Origin.NETWORK);
    for (int gray : new int[] {20, 180}) {
      StripImage strip =
          new PaintedStrip(
              40,
              g -> {
                g.setColor(new java.awt.Color(gray, gray, gray));
                g.fillRect(204, 44, 10, 40);
                g.fillRect(204, 44, 36, 8);
              });
      assertThat(SecondLook.isInked(strip, mark)).isEqualTo(gray < 100);
    }
  }
}
