package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Settling again after corrections, on made books. */
class SettlerTest {

  private static final MadeBook.Errors COUNTS = new MadeBook.Errors(0, 0, 0.1, 0.1);

  static Stream<Long> seeds() {
    return Stream.iterate(300L, s -> s + 1).limit(10);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void settlingWithoutACorrectionChangesNothing(long seed) {
    BarMap map = read(new MadeBook(seed, 4, COUNTS));
    BarMap again = new Settler().settle(map, Fixed.NOTHING);
    assertThat(again.bars()).isEqualTo(map.bars());
    assertThat(again.findings().size()).isLessThanOrEqualTo(map.findings().size());
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void correctingEveryDoubtfulRestLeavesNoDoubtAndTheTrueNumbers(long seed) {
    MadeBook book = new MadeBook(seed, 4, COUNTS);
    BarMap map = read(book);
    List<Bar> bars = new ArrayList<>(map.bars());
    // where the reckoning guessed a barline first, entries can't be compared one by one
    assumeThat(bars).hasSameSizeAs(book.truth);
    java.util.Set<String> set = new java.util.HashSet<>();
    int doubts = map.findings().size();
    for (int i = 0; i < bars.size(); i++) {
      MadeBook.TrueBar t = book.truth.get(i);
      String id = bars.get(i).id();
      boolean doubted = map.findings().stream().anyMatch(f -> f.bar().orElse("").equals(id));
      if (!doubted && bars.get(i).count() == t.count()) {
        continue;
      }
      set.add(id);
      List<Bar> now = new ArrayList<>(map.bars());
      now.set(i, now.get(i).toBuilder().count(t.count()).build());
      Fixed fixed = new Fixed(set, Set.of(), set);
      map = new Settler().settle(map.withBars(now), fixed);
      assertThat(map.bars().get(i).count()).isEqualTo(t.count());
      assertThat(map.findings().size()).isLessThanOrEqualTo(doubts);
      doubts = map.findings().size();
    }
    List<Integer> numbers = map.bars().stream().map(Bar::number).toList();
    List<Integer> truth = book.truth.stream().map(MadeBook.TrueBar::number).toList();
    assertThat(numbers).isEqualTo(truth);
    assertThat(map.findings()).extracting(Finding::code).doesNotContain("count-settled");
  }

  private static BarMap read(MadeBook book) {
    return new Reckoner().reckon(new Book("made", ""), book.pages);
  }
}
