package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Settling again after corrections, on made books. */
class SettlerTest {

  private static final MadeBook.Errors COUNTS = new MadeBook.Errors(0, 0, 0.1, 0.1);

  static Stream<Long> seeds() {
    return Stream.iterate(300L, s -> s + 1).limit(10);
  }

  /** Books in which the reckoning guesses no barline, so that entries compare one by one. */
  static Stream<Long> comparable() {
    return Stream.iterate(300L, s -> s + 1)
        .limit(100)
        .filter(s -> entries(new MadeBook(s, 4, COUNTS)))
        .limit(10);
  }

  private static boolean entries(MadeBook book) {
    return read(book).bars().size() == book.truth.size();
  }

  @Test
  void thereAreBooksToCompare() {
    assertThat(comparable()).hasSize(10);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void settlingWithoutACorrectionChangesNothing(long seed) {
    BarMap map = read(new MadeBook(seed, 4, COUNTS));
    BarMap again = new Settler().settle(map, Fixed.NOTHING);
    assertThat(again.bars()).isEqualTo(map.bars());
    assertThat(doubts(again)).isEqualTo(doubts(map));
    assertThat(new Settler().settle(again, Fixed.NOTHING)).isEqualTo(again);
  }

  /** Numbers are told apart up to some thousands; beyond them a map stays as a person set it. */
  @Test
  void numbersBeyondThoseToldApartAreLeftAsTheyAre() {
    BarMap map = read(new MadeBook(300, 4, COUNTS));
    for (int number : new int[] {3_999, 4_000, 7_000, 99_999}) {
      for (int at : new int[] {0, map.bars().size() / 2, map.bars().size() - 1}) {
        List<Bar> bars = new ArrayList<>(map.bars());
        Bar set = bars.get(at).toBuilder().number(number).build();
        bars.set(at, set);
        Fixed fixed = new Fixed(Set.of(), Set.of(set.id()), Set.of(set.id()));
        BarMap settled = new Settler().settle(map.withBars(bars), fixed);
        assertThat(settled.bars().get(at).number()).isEqualTo(number);
      }
    }
  }

  private static Set<String> doubts(BarMap map) {
    return map.findings().stream()
        .map(f -> f.code() + " " + f.bar().orElse("") + " " + f.text())
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @ParameterizedTest
  @MethodSource("comparable")
  void correctingEveryDoubtfulRestLeavesNoDoubtOfCountsAndTheTrueNumbers(long seed) {
    MadeBook book = new MadeBook(seed, 4, COUNTS);
    BarMap map = read(book);
    Set<String> set = new HashSet<>();
    for (int i = 0; i < map.bars().size(); i++) {
      MadeBook.TrueBar t = book.truth.get(i);
      String id = map.bars().get(i).id();
      boolean doubted = map.findings().stream().anyMatch(f -> f.bar().orElse("").equals(id));
      if (!doubted && map.bars().get(i).count() == t.count()) {
        continue;
      }
      set.add(id);
      List<Bar> now = new ArrayList<>(map.bars());
      now.set(i, now.get(i).toBuilder().count(t.count()).build());
      map = new Settler().settle(map.withBars(now), new Fixed(set, Set.of(), set));
      assertThat(map.bars().get(i).count()).isEqualTo(t.count());
      assertThat(map.findings())
          .extracting(f -> f.bar().orElse(""))
          .doesNotContainAnyElementsOf(set);
      assertThat(unasked(map, set)).isEmpty();
    }
    assertThat(map.bars())
        .extracting(Bar::number)
        .isEqualTo(book.truth.stream().map(MadeBook.TrueBar::number).toList());
    assertThat(map.findings()).extracting(Finding::code).doesNotContain("count-settled");
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void whateverIsSetWrongEveryContradictionIsAsked(long seed) {
    BarMap map = read(new MadeBook(seed, 4, MadeBook.Errors.USUAL));
    Random random = new Random(seed);
    Set<String> counts = new HashSet<>();
    int asked = 0;
    for (int n = 0; n < 8; n++) {
      List<Bar> bars = new ArrayList<>(map.bars());
      List<Bar> rests = bars.stream().filter(b -> b.count() > 1).toList();
      Bar rest = rests.get(random.nextInt(rests.size()));
      bars.set(
          bars.indexOf(rest), rest.toBuilder().count(rest.count() + 2 + random.nextInt(9)).build());
      counts.add(rest.id());
      Fixed fixed = new Fixed(counts, Set.of(), Set.of());
      BarMap wrong = new Settler().settle(map.withBars(bars), fixed);
      assertThat(unasked(wrong, Set.of())).isEmpty();
      assertThat(new Settler().settle(wrong, fixed)).isEqualTo(wrong);
      asked += (int) wrong.findings().stream().filter(f -> f.text().contains("was set")).count();
      map = wrong;
    }
    assertThat(asked).as("doubts that name what was set").isPositive();
  }

  /** Entries whose number is not the printed one, or jumps at a line, without a doubt there. */
  private static List<Bar> unasked(BarMap map, Set<String> answered) {
    Set<String> asked = new HashSet<>(answered);
    map.findings().forEach(f -> asked.add(f.bar().orElse("")));
    Set<String> starts = new HashSet<>();
    map.numbers().forEach(n -> starts.add(n.firstBar().orElse("")));
    List<Bar> unasked = new ArrayList<>();
    for (int i = 0; i < map.bars().size(); i++) {
      Bar bar = map.bars().get(i);
      boolean other =
          bar.evidence().stream()
              .flatMap(e -> e.numbers().stream())
              .limit(1)
              .anyMatch(a -> !a.text().equals(Integer.toString(bar.number())));
      boolean jumps =
          i > 0 && !starts.contains(bar.id()) && bar.number() > map.bars().get(i - 1).nextNumber();
      if ((other || jumps) && !asked.contains(bar.id())) {
        unasked.add(bar);
      }
    }
    return unasked;
  }

  private static BarMap read(MadeBook book) {
    return new Reckoner().reckon(new Book("made", ""), book.pages);
  }
}
