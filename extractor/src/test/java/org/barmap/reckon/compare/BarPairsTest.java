package org.barmap.reckon.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.Outline;
import org.barmap.map.RehearsalMark;
import org.barmap.reckon.compare.BarPairs.Pair;
import org.barmap.reckon.compare.BarPairs.Pin;
import org.barmap.reckon.compare.BarPairs.Trust;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Two parts drawn from one show whose bars are known by name, so that every pair is right or wrong
 * by the show and not by what was aligned.
 */
class BarPairsTest {

  private static final int BOOKS = Integer.getInteger("barmap.pairs", 60);

  /** A bar of the show: its name, and what both parts print of it. */
  private record ShowBar(int name, Optional<String> mark, Meter meter) {}

  /** A part: its entries, and which bar of the show each of its single bars is. */
  private record Part(List<Bar> entries, List<Integer> names) {}

  /**
   * A show of marked sections, and two parts of it. A section may have bars that only one of the
   * parts has, never both.
   */
  private record Show(Part first, Part second, int sections, Set<Integer> uneven) {
    static Show of(long seed) {
      Random random = new Random(seed);
      List<ShowBar> one = new ArrayList<>();
      List<ShowBar> two = new ArrayList<>();
      Set<Integer> uneven = new HashSet<>();
      int sections = 3 + random.nextInt(6);
      int name = 0;
      int beats = 4;
      for (int s = 0; s < sections; s++) {
        int length = 4 + random.nextInt(20);
        int odd = random.nextInt(3) == 0 ? 1 + random.nextInt(2) : 0;
        int at = 1 + random.nextInt(length - 1);
        if (odd > 0) {
          uneven.add(s);
        }
        for (int i = 0; i < length; i++) {
          beats = random.nextInt(30) == 0 ? 2 + random.nextInt(3) : beats;
          String letter = String.valueOf((char) ('A' + s));
          ShowBar bar =
              new ShowBar(
                  name++,
                  i == 0 ? Optional.of(letter) : Optional.empty(),
                  new Meter(beats, 4, false));
          boolean extra = odd > 0 && i >= at && i < at + odd;
          if (!extra || s % 2 == 0) {
            one.add(bar);
          }
          if (!extra || s % 2 == 1) {
            two.add(bar);
          }
        }
      }
      return new Show(part(one, random), part(two, random), sections, uneven);
    }
  }

  /** Prints a part with rests of its own, numbered from a bar of its own. */
  private static Part part(List<ShowBar> bars, Random random) {
    List<Bar> entries = new ArrayList<>();
    int number = 1 + random.nextInt(3);
    for (int i = 0; i < bars.size(); ) {
      int most = random.nextBoolean() ? 1 : 1 + random.nextInt(12);
      int count = 1;
      while (count < most && i + count < bars.size() && plain(bars.get(i), bars.get(i + count))) {
        count++;
      }
      entries.add(
          Bar.builder("b" + entries.size(), 1, 1, Outline.box(0, 0, 1, 1))
              .number(number)
              .count(count)
              .meter(Optional.of(bars.get(i).meter()))
              .rehearsal(bars.get(i).mark().map(m -> new RehearsalMark(m, Enclosure.BOX)))
              .build());
      number += count;
      i += count;
    }
    return new Part(entries, bars.stream().map(ShowBar::name).toList());
  }

  private static boolean plain(ShowBar first, ShowBar next) {
    return next.mark().isEmpty() && next.meter().equals(first.meter());
  }

  static IntStream seeds() {
    return IntStream.range(0, BOOKS);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void whatIsSureIsTrue(int seed) {
    Show show = Show.of(seed);
    List<Pair> pairs = BarPairs.of(show.first().entries(), show.second().entries(), List.of());
    assertOrdered(pairs);
    for (Pair pair : pairs) {
      if (pair.trust() == Trust.SURE) {
        assertThat(show.first().names().get(pair.first()))
            .isEqualTo(show.second().names().get(pair.second()));
      }
    }
    if (show.uneven().isEmpty()) {
      assertThat(pairs).hasSize(show.first().names().size());
      assertThat(pairs).allMatch(p -> p.trust() == Trust.SURE);
    }
  }

  /** Named by a person, the bars around what only one part has make all the others sure. */
  @ParameterizedTest
  @MethodSource("seeds")
  void pinsAroundADifferenceMakeTheRestSure(int seed) {
    Show show = Show.of(seed);
    Map<Integer, Integer> second = new HashMap<>();
    for (int j = 0; j < show.second().names().size(); j++) {
      second.put(show.second().names().get(j), j);
    }
    List<Pin> common = new ArrayList<>();
    for (int i = 0; i < show.first().names().size(); i++) {
      Integer j = second.get(show.first().names().get(i));
      if (j != null) {
        common.add(new Pin(i, j));
      }
    }
    List<Pin> pins = new ArrayList<>();
    for (int k = 0; k < common.size(); k++) {
      boolean jumps =
          k + 1 < common.size()
              && common.get(k + 1).first() - common.get(k).first()
                  != common.get(k + 1).second() - common.get(k).second();
      boolean jumped =
          k > 0
              && common.get(k).first() - common.get(k - 1).first()
                  != common.get(k).second() - common.get(k - 1).second();
      if (jumps || jumped || k == common.size() - 1) {
        pins.add(common.get(k));
      }
    }
    List<Pair> pairs = BarPairs.of(show.first().entries(), show.second().entries(), pins);
    assertOrdered(pairs);
    assertThat(pairs.stream().filter(p -> p.trust() == Trust.SURE))
        .extracting(p -> new Pin(p.first(), p.second()))
        .containsExactlyElementsOf(common);
  }

  private static void assertOrdered(List<Pair> pairs) {
    for (int k = 1; k < pairs.size(); k++) {
      assertThat(pairs.get(k).first()).isGreaterThan(pairs.get(k - 1).first());
      assertThat(pairs.get(k).second()).isGreaterThan(pairs.get(k - 1).second());
    }
  }

  /** How often pairs are right; the figure of those counted on is printed, not asserted. */
  @Test
  void pairsAreCounted() {
    int[] right = new int[Trust.values().length];
    int[] all = new int[Trust.values().length];
    for (int seed = 0; seed < BOOKS; seed++) {
      Show show = Show.of(seed);
      for (Pair p : BarPairs.of(show.first().entries(), show.second().entries(), List.of())) {
        all[p.trust().ordinal()]++;
        if (show.first().names().get(p.first()).equals(show.second().names().get(p.second()))) {
          right[p.trust().ordinal()]++;
        }
      }
    }
    System.out.printf(
        "pairs right of all, sure and counted: %s of %s%n",
        Arrays.toString(right), Arrays.toString(all));
    assertThat(right[Trust.SURE.ordinal()]).isEqualTo(all[Trust.SURE.ordinal()]).isPositive();
  }

  @Test
  void partsOfNothingHaveNoPairs() {
    assertThat(BarPairs.of(List.of(), List.of(), List.of(new Pin(0, 0)))).isEmpty();
    Part one = Show.of(1).first();
    assertThat(BarPairs.of(one.entries(), List.of(), List.of())).isEmpty();
  }
}
