package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.BasicStroke;
import java.awt.Font;
import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.net.SignNet;
import org.barmap.sign.strip.PaintedStrip;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

/** Marks stand over their staff, unless a house sets them under it (common practice). */
class UnderneathTest {

  /** Spaces from one staff to the next. */
  private static final int APART = 12;

  private static RawSign sign(SignKind kind, double x, double y, double probability) {
    return new RawSign(kind, x - 8, y - 8, x + 8, y + 8, probability, List.of(), Origin.NETWORK);
  }

  private static RawSign mark(double x, double y) {
    return sign(SignKind.REHEARSAL, x, y, .9);
  }

  /** As many staves as there are lists of what may stand under them. */
  private static List<Underneath.Own> page(List<List<RawSign>> signs, List<List<RawSign>> under) {
    return IntStream.range(0, signs.size())
        .mapToObj(
            i ->
                new Underneath.Own(
                    new PaintedStrip(60, APART * i, g -> {}), signs.get(i), under.get(i)))
        .toList();
  }

  /** Where a place six spaces under a staff lies on the strip of the next one. */
  private static double fromNext(double y) {
    return y - APART * StripImage.SPACE;
  }

  @Test
  void marksGoToTheStaffTheyStandUnder() {
    RawSign b = mark(200, 136);
    RawSign c = mark(300, 136);
    RawSign line = sign(SignKind.BARLINE, 200, 88, .9);
    List<List<RawSign>> settled =
        Underneath.settled(
            page(
                List.of(List.of(line), List.of(line, mark(201, fromNext(137))), List.of(line)),
                List.of(List.of(b), List.of(c), List.of())));
    assertThat(settled).containsExactly(List.of(b, line), List.of(c, line), List.of(line));
  }

  @Test
  void oneAloneStaysWhereItIs() {
    List<List<RawSign>> signs = List.of(List.of(), List.of(mark(200, fromNext(136))));
    assertThat(Underneath.settled(page(signs, List.of(List.of(mark(200, 136)), List.of()))))
        .isEqualTo(signs);
  }

  @Test
  void aPageWithAsManyOverItsStavesKeepsThem() {
    List<List<RawSign>> signs = List.of(List.of(mark(100, 40), mark(300, 40)), List.of());
    List<List<RawSign>> under = List.of(List.of(mark(200, 136)), List.of(mark(50, 136)));
    assertThat(Underneath.settled(page(signs, under))).isEqualTo(signs);
  }

  @Test
  void figuresUnderAFewStavesAreNoNumbersOfLines() {
    RawSign three = sign(SignKind.BAR_NUMBER, 200, 130, .95);
    List<List<RawSign>> signs = new ArrayList<>();
    List<List<RawSign>> under = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      signs.add(List.of());
      under.add(i < 2 ? List.of(three) : List.of());
    }
    assertThat(Underneath.settled(page(signs, under))).isEqualTo(signs);
    under.set(2, List.of(three));
    assertThat(Underneath.settled(page(signs, under))).isEqualTo(under);
  }

  private static void music(Graphics2D g) {
    for (int bar = 0; bar < 3; bar++) {
      int x = 120 + 320 * bar;
      for (int note = 0; note < 4; note++) {
        g.fillOval(x + 64 * note, 160, 18, 14);
        g.setStroke(new BasicStroke(3));
        g.drawLine(x + 64 * note, 168, x + 64 * note, 220);
      }
      g.setStroke(new BasicStroke(3));
      g.drawLine(x + 270, 144, x + 270, 208);
    }
  }

  private static void box(Graphics2D g, int x, int y) {
    g.setStroke(new BasicStroke(3));
    g.drawRect(x, y, 44, 44);
    g.setFont(new Font(Font.SANS_SERIF, Font.BOLD, 36));
    g.drawString("B", x + 9, y + 36);
  }

  @Test
  void theNetworkSeesAMarkUnderItsStaffOnly() {
    StripImage under =
        new PaintedStrip(
            80,
            g -> {
              music(g);
              box(g, 380, 236);
            });
    StripImage over =
        new PaintedStrip(
            80,
            g -> {
              music(g);
              box(g, 380, 64);
            });
    try (SignNet net = new SignNet()) {
      assertThat(net.find(under).under()).singleElement().satisfies(UnderneathTest::isTheMark);
      assertThat(net.find(over).under()).isEmpty();
    }
  }

  private static void isTheMark(RawSign s) {
    assertThat(s.kind()).isEqualTo(SignKind.REHEARSAL);
    assertThat(s.centre()).isBetween(197.0, 205.0);
  }
}
