package org.barmap.sign.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.sign.kind.Folio;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

class MarkOrNumberTest {

  @Test
  void boxedNumbersBesideLettersAreBarNumbers() {
    List<List<Sign>> page =
        MarkOrNumber.settle(
            List.of(List.of(mark("A", 20), mark("17", 50)), List.of(mark("25", 1))));
    assertThat(page.get(0))
        .extracting(Sign::kind)
        .containsExactly(SignKind.REHEARSAL, SignKind.BAR_NUMBER);
    assertThat(page.get(1)).extracting(Sign::kind).containsExactly(SignKind.BAR_NUMBER);
  }

  /** Common practice: marks follow each other in order, a page's own number stands at its top. */
  @Test
  void thePagesNumberIsNoMark() {
    List<Sign> first = List.of(bare("35", 5, -10), bare("8", 40, -6));
    List<List<Sign>> page = MarkOrNumber.settle(List.of(first, List.of(bare("9", 40, -6))));
    assertThat(page.get(0)).extracting(Sign::text).containsExactly("8");
    Folio folio = MarkOrNumber.folio(List.of(first, List.of(bare("9", 40, -6)))).orElseThrow();
    assertThat(folio.number()).isEqualTo(35);
    assertThat(folio.probability()).isEqualTo(.5 * .95);
    List<Sign> inOrder = List.of(bare("7", 5, -10), bare("8", 40, -6));
    assertThat(MarkOrNumber.settle(List.of(inOrder)).get(0)).hasSize(2);
    assertThat(MarkOrNumber.folio(List.of(inOrder))).isEmpty();
  }

  private static Sign bare(String text, double from, double top) {
    return new Sign(
        SignKind.REHEARSAL,
        from,
        from + 2,
        top,
        top + 1.5,
        Outline.box(0, 0, 1, 1),
        .5,
        List.of(new Reading(text, .95)),
        Optional.of(Enclosure.NONE));
  }

  @Test
  void boxedNumbersAloneAreRehearsalMarks() {
    List<List<Sign>> page =
        MarkOrNumber.settle(
            List.of(List.of(mark("9", 40)), List.of(mark("17", 50)), List.of(mark("33", 30))));
    assertThat(page).allSatisfy(s -> assertThat(s.get(0).kind()).isEqualTo(SignKind.REHEARSAL));
  }

  @Test
  void numbersAtTheStartOfEveryLineAreBarNumbers() {
    List<List<Sign>> page =
        MarkOrNumber.settle(
            List.of(
                List.of(),
                List.of(mark("5", 1), mark("7", 40)),
                List.of(mark("10", 1)),
                List.of(mark("17", 1))));
    assertThat(page.get(1))
        .extracting(Sign::kind)
        .containsExactly(SignKind.BAR_NUMBER, SignKind.REHEARSAL);
    assertThat(page.get(3).get(0).kind()).isEqualTo(SignKind.BAR_NUMBER);
  }

  @Test
  void whereLinesBeginWithBareNumbersBoxedOnesAreMarks() {
    List<List<Sign>> page =
        MarkOrNumber.settle(
            List.of(
                List.of(),
                List.of(number("39", 1, Enclosure.NONE), number("10", 40, Enclosure.BOX)),
                List.of(number("46", 1, Enclosure.NONE), number("11", 1.5, Enclosure.BOX)),
                List.of(mark("51", 1), number("12", 30, Enclosure.BOX))));
    assertThat(page.get(1).get(1).kind()).isEqualTo(SignKind.REHEARSAL);
    assertThat(page.get(2))
        .extracting(Sign::kind)
        .containsExactly(SignKind.BAR_NUMBER, SignKind.REHEARSAL);
    assertThat(page.get(3))
        .extracting(Sign::kind)
        .containsExactly(SignKind.BAR_NUMBER, SignKind.REHEARSAL);
  }

  private static Sign number(String text, double at, Enclosure enclosure) {
    Sign s = mark(text, at);
    return new Sign(
        SignKind.BAR_NUMBER,
        s.from(),
        s.to(),
        s.top(),
        s.bottom(),
        s.outline(),
        s.probability(),
        s.readings(),
        Optional.of(enclosure));
  }

  private static Sign mark(String text, double at) {
    return new Sign(
        SignKind.REHEARSAL,
        at - 1,
        at + 1,
        -6,
        -4,
        Outline.box(0, 0, 1, 1),
        .9,
        List.of(new Reading(text, .99)),
        Optional.empty());
  }
}
