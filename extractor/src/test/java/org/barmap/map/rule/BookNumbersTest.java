package org.barmap.map.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every bar of a book that names a number stands in one; the expectations are by hand. */
class BookNumbersTest {

  /**
   * Numbers are written as "7 first last", bars counted from 1; a silent one has no bars.
   *
   * @param bars how many the book has
   */
  @ParameterizedTest
  @CsvSource({
    "9, 1 1 4;2 5 9, 1 1 4;2 5 9",
    "9, 2 5 9, before 2 1 4;2 5 9",
    "9, 2 5 7, before 2 1 4;2 5 7;after 2 8 9",
    "9, 1 1 3;4 7 9, 1 1 3;before 4 4 6;4 7 9",
    "9, 1;2 5 9, 1;before 2 1 4;2 5 9",
    "9, 3, before 3 1 9;3",
    "9, 2 5 9;1 1 2, before 2 3 4;2 5 9;1 1 2",
    "0, 3, 3"
  })
  void everyBarStandsInANumber(int bars, String named, String expected) {
    assertThat(said(BookNumbers.of(map(bars, named)))).isEqualTo(expected);
  }

  @ParameterizedTest
  @CsvSource({"7, No. 7", "before 2, before No. 2", "after 9A, after No. 9A", "before, No. before"})
  void aNumberIsSpokenOf(String label, String spoken) {
    assertThat(BookNumbers.spoken(label)).isEqualTo(spoken);
  }

  private static BarMap map(int bars, String named) {
    List<Bar> all = new ArrayList<>();
    IntStream.rangeClosed(1, bars)
        .forEach(
            i -> all.add(Bar.builder("b" + i, 1, 1, Outline.box(0, 0, 1, 1)).number(i).build()));
    List<MusicalNumber> numbers =
        Arrays.stream(named.split(";")).map(BookNumbersTest::number).toList();
    return BarMap.of(new Book("Show", "Bass"), List.of(), numbers, all);
  }

  private static MusicalNumber number(String said) {
    String[] w = said.split(" ");
    return w.length == 1
        ? new MusicalNumber(w[0], "", Optional.empty(), Optional.empty(), true)
        : new MusicalNumber(w[0], "", Optional.of("b" + w[1]), Optional.of("b" + w[2]), false);
  }

  private static String said(List<MusicalNumber> numbers) {
    return numbers.stream()
        .map(
            n ->
                n.firstBar()
                    .map(
                        f ->
                            n.label()
                                + " "
                                + f.substring(1)
                                + " "
                                + n.lastBar().orElse("").substring(1))
                    .orElse(n.label()))
        .collect(Collectors.joining(";"));
  }
}
