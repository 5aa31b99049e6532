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

/** Bars put in for a revival are called after the one before them (common practice). */
class LetteredNumberTest {

  @Test
  void betweenTheNumbersAroundItAWordIsABarsNumber() {
    List<List<Sign>> page =
        settle(
            line(mark("20", 2), word("23A", 60), word("23B", 80)),
            line(word("23C", 1), mark("24", 20)));
    assertThat(numbers(page)).containsExactly("23A", "23B", "23C");
  }

  /** The second alto's cue, a string to play on, a page of the copyist's. */
  @Test
  void whatIsOutOfTheCountIsAWord() {
    assertThat(numbers(settle(line(number("57", 1), word("2A", 30)), line(number("62", 1)))))
        .isEmpty();
    assertThat(numbers(settle(line(number("57", 1), word("63A", 30)), line(number("62", 1)))))
        .isEmpty();
    assertThat(numbers(settle(line(number("57", 1), word("157A", 30))))).isEmpty();
    assertThat(numbers(settle(line(word("4A", 30)), line(number("5", 1))))).isEmpty();
    assertThat(numbers(settle(line(number("1", 1), word("3X", 30)), line(number("5", 1)))))
        .isEmpty();
  }

  @Test
  void anotherMusicalNumberCountsAnew() {
    Sign heading = sign(SignKind.HEADING, "No. 4B", 0, -9);
    assertThat(
            numbers(settle(line(number("20", 1)), line(heading, word("21A", 30), number("3", 50)))))
        .isEmpty();
    assertThat(
            numbers(settle(line(number("20", 1), word("21A", 30)), line(heading, number("3", 50)))))
        .containsExactly("21A");
  }

  @Test
  void belowTheStaffOrUnsurelyReadItStaysAWord() {
    Sign below = sign(SignKind.WORD, "21A", 30, 4);
    Sign unsure = word("21A", 30).saying(List.of(new Reading("21A", .5)));
    assertThat(numbers(settle(line(number("20", 1), below), line(number("23", 1))))).isEmpty();
    assertThat(numbers(settle(line(number("20", 1), unsure), line(number("23", 1))))).isEmpty();
  }

  private static List<List<Sign>> settle(List<Sign> line) {
    return LetteredNumber.settle(List.of(line));
  }

  private static List<List<Sign>> settle(List<Sign> first, List<Sign> second) {
    return LetteredNumber.settle(List.of(first, second));
  }

  private static List<Sign> line(Sign... signs) {
    return List.of(signs);
  }

  private static List<String> numbers(List<List<Sign>> page) {
    return page.stream()
        .flatMap(List::stream)
        .filter(s -> s.kind() == SignKind.BAR_NUMBER && !s.text().matches("\\d+"))
        .map(Sign::text)
        .toList();
  }

  private static Sign number(String text, double from) {
    return sign(SignKind.BAR_NUMBER, text, from, -5);
  }

  private static Sign mark(String text, double from) {
    return sign(SignKind.REHEARSAL, text, from, -6);
  }

  private static Sign word(String text, double from) {
    return sign(SignKind.WORD, text, from, -5);
  }

  private static Sign sign(SignKind kind, String text, double from, double top) {
    return new Sign(
        kind,
        from,
        from + 3,
        top,
        top + 2,
        Outline.box(0, 0, 1, 1),
        .95,
        List.of(new Reading(text, .95)),
        Optional.of(Enclosure.NONE));
  }
}
