package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

/** A house sets its bar numbers in one size and its marks in a larger one (common practice). */
class MarkBySizeTest {

  private static final SignKind MARK = SignKind.REHEARSAL;
  private static final SignKind NUMBER = SignKind.BAR_NUMBER;

  @Test
  void aMarkAsSmallAsTheBarNumbersIsOne() {
    List<List<Sign>> page =
        MarkBySize.settle(
            List.of(
                List.of(sign(NUMBER, "5", 1.5, .6), sign(MARK, "7", 3.4, .8)),
                List.of(sign(NUMBER, "10", 1.6, .6), sign(MARK, "15", 1.5, .6)),
                List.of(sign(MARK, "16", 3.5, .8))));
    assertThat(page.get(1)).extracting(Sign::kind).containsExactly(NUMBER, NUMBER);
    assertThat(page.get(2)).extracting(Sign::kind).containsExactly(MARK);
  }

  @Test
  void aBarNumberAsLargeAsTheMarksIsTheLetterBetweenThem() {
    List<Sign> settled =
        line(
            sign(MARK, "H", 2.4, .8),
            sign(NUMBER, "1", 2.3, .8),
            sign(MARK, "J", 2.5, .8),
            sign(NUMBER, "90", 2.4, .8));
    assertThat(settled).extracting(Sign::kind).containsExactly(MARK, MARK, MARK, NUMBER);
    assertThat(settled.get(1).text()).isEqualTo("I");
  }

  @Test
  void whereTheSizesLieFarApartALargeNumberIsAMark() {
    List<Sign> settled =
        line(
            sign(NUMBER, "9", 1.3, .8),
            sign(NUMBER, "14", 1.3, .8),
            sign(MARK, "9", 3.2, .8),
            sign(NUMBER, "29", 3.3, .8),
            sign(MARK, "57", 3.3, .8));
    assertThat(settled).extracting(Sign::kind).containsExactly(NUMBER, NUMBER, MARK, MARK, MARK);
  }

  private static List<Sign> line(Sign... signs) {
    return MarkBySize.settle(List.of(List.of(signs))).get(0);
  }

  private static Sign sign(SignKind kind, String text, double height, double probability) {
    return new Sign(
        kind,
        20,
        22,
        -4 - height,
        -4,
        Outline.box(0, 0, 1, 1),
        probability,
        List.of(new Reading(text, .95)),
        Optional.of(Enclosure.NONE));
  }
}
