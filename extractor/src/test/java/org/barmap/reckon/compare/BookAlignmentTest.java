package org.barmap.reckon.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.RehearsalMark;
import org.junit.jupiter.api.Test;

/** Two parts of one number, 40 bars, marks A at 9, B at 17, C at 31; invented. */
class BookAlignmentTest {

  private static final Outline BOX = Outline.box(0, 0, 10, 10);

  /** Entries of some lengths; an entry longer than one bar is a rest. */
  private static BarMap part(double confidence, int... counts) {
    List<Bar> bars = new ArrayList<>();
    int number = 1;
    for (int count : counts) {
      Bar bar =
          Bar.builder("b" + (bars.size() + 1), 1, 1, BOX)
              .number(number)
              .count(count)
              .content(count > 1 ? Content.MULTI_REST : Content.MUSIC)
              .meter(new Meter(number >= 17 ? 3 : 4, 4, number == 1 || number == 17))
              .confidence(confidence)
              .build();
      Optional<String> mark =
          number == 9
              ? Optional.of("A")
              : number == 17
                  ? Optional.of("B")
                  : number == 31 ? Optional.of("C") : Optional.empty();
      bars.add(
          bar.toBuilder().rehearsal(mark.map(m -> new RehearsalMark(m, Enclosure.BOX))).build());
      number += count;
    }
    MusicalNumber n =
        new MusicalNumber(
            "7", "Low Tide", Optional.of("b1"), Optional.of("b" + bars.size()), false);
    return BarMap.of(new Book("Saltmarsh", "x"), List.of(), List.of(n), bars);
  }

  private static int[] ones(int n) {
    return IntStream.range(0, n).map(i -> 1).toArray();
  }

  @Test
  void partsThatBreakTheirRestsDifferentlyDoNotContradict() {
    BarMap plays = part(1, ones(40));
    BarMap rests = part(1, 8, 8, 4, 10, 10);
    assertThat(BookAlignment.compare(plays, rests)).isEmpty();
    assertThat(BookAlignment.compare(rests, plays)).isEmpty();
  }

  @Test
  void aMissingBarIsFoundOnceWithTheLessSurePartAsCulprit() {
    BarMap plays = part(0.99, ones(40));
    List<Bar> bars = new ArrayList<>(part(0.7, ones(40)).bars());
    bars.remove(12);
    BarMap misses = plays.withBars(bars);
    List<BookAlignment.Difference> found = BookAlignment.compare(plays, misses);
    assertThat(found).hasSize(1);
    assertThat(found.get(0).kind()).isEqualTo("bars");
    assertThat(found.get(0).text())
        .contains("The first book has one bar more than the second book")
        .contains("after mark A");
    assertThat(found.get(0).culprit()).contains("B");
  }

  @Test
  void aDifferentLetterAndADifferentMeterAreNamed() {
    BarMap a = part(0.99, ones(40));
    List<Bar> bars = new ArrayList<>(a.bars());
    bars.set(30, bars.get(30).toBuilder().rehearsal(new RehearsalMark("G", Enclosure.BOX)).build());
    bars.set(0, bars.get(0).toBuilder().meter(new Meter(2, 4, true)).confidence(0.5).build());
    List<BookAlignment.Difference> found = BookAlignment.compare(a, a.withBars(bars));
    assertThat(found).extracting(BookAlignment.Difference::kind).containsExactly("meter", "mark");
    assertThat(found.get(0).text()).contains("4/4").contains("2/4");
    assertThat(found.get(0).culprit()).contains("B");
    assertThat(found.get(1).culprit()).isEmpty();
  }
}
