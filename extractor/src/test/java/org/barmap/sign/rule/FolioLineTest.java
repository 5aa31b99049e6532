package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.strip.StripImage;
import org.junit.jupiter.api.Test;

/** Common practice: page numbers stand in the outer corners, even ones left, odd ones right. */
class FolioLineTest {
  private static final double LENGTH = 110;

  @Test
  void figuresInTheOuterCornerAreThePagesNumber() {
    assertThat(of(line("30", 0, -18, 1.5))).contains(new Folio(30, 0.9));
    assertThat(of(line("7 -", 104, -10, 1.5), line("BASS", 0, -10, 1.5)))
        .contains(new Folio(7, 0.9));
  }

  @Test
  void whatStandsOnTheWrongSideIsNot() {
    assertThat(of(line("31", 0, -18, 1.5))).isEmpty();
    assertThat(of(line("8", 104, -10, 1.5))).isEmpty();
    assertThat(of(line("8", 50, -10, 1.5))).isEmpty();
  }

  @Test
  void largeLowOrWordyOnesAreNot() {
    assertThat(of(line("12", 2, -10, 3))).isEmpty();
    assertThat(of(line("12", 2, -6, 1.5))).isEmpty();
    assertThat(of(line("No. 12", 2, -10, 1.5))).isEmpty();
    assertThat(of(line("0", 2, -10, 1.5))).isEmpty();
  }

  @Test
  void ofTwoNoneIsTaken() {
    assertThat(of(line("4", 2, -10, 1.5), line("5", 104, -10, 1.5))).isEmpty();
  }

  private static Optional<Folio> of(FolioLine.Line... lines) {
    return FolioLine.of(LENGTH * StripImage.SPACE, List.of(lines));
  }

  private static FolioLine.Line line(String text, double from, double top, double height) {
    double space = StripImage.SPACE;
    double x0 = from * space;
    double y0 = StripImage.MIDDLE + top * space;
    return new FolioLine.Line(
        new RawSign(
            SignKind.WORD,
            x0,
            y0,
            x0 + 3 * space,
            y0 + height * space,
            0.5,
            List.of(),
            Origin.NETWORK),
        new Reading(text, 0.9));
  }
}
