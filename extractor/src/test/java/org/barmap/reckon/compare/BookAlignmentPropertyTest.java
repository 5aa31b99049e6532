package org.barmap.reckon.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.RehearsalMark;
import org.barmap.reckon.compare.BookAlignment.Difference;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Parts of shows drawn from seeds: how they break their rests says nothing, what they count does.
 */
class BookAlignmentPropertyTest {

  private static final int NUMBERS = 4;

  /** One bar of the show: what every part prints of it. */
  private record ShowBar(Optional<String> mark, Meter meter, boolean opens, boolean closes) {}

  private static List<List<ShowBar>> show(long seed) {
    Random random = new Random(seed);
    List<List<ShowBar>> numbers = new ArrayList<>();
    for (int n = 0; n < NUMBERS; n++) {
      List<ShowBar> bars = new ArrayList<>();
      int length = 40 + random.nextInt(120);
      char mark = 'A';
      int beats = 4;
      for (int i = 0; i < length; i++) {
        boolean marked = i > 3 && random.nextInt(12) == 0 && mark <= 'Z';
        boolean changes = i == 0 || random.nextInt(40) == 0;
        beats = changes ? 2 + random.nextInt(3) : beats;
        bars.add(
            new ShowBar(
                marked ? Optional.of(String.valueOf(mark++)) : Optional.empty(),
                new Meter(beats, 4, changes),
                random.nextInt(40) == 0,
                random.nextInt(40) == 0));
      }
      numbers.add(bars);
    }
    return numbers;
  }

  /** A part that rests and plays as it likes; a rest ends where all parts print something. */
  private static BarMap part(List<List<ShowBar>> show, long seed, String name, double confidence) {
    Random random = new Random(seed);
    List<Bar> bars = new ArrayList<>();
    List<MusicalNumber> numbers = new ArrayList<>();
    for (List<ShowBar> number : show) {
      String first = "b" + (bars.size() + 1);
      for (int i = 0; i < number.size(); ) {
        int most = random.nextBoolean() ? 1 : 1 + random.nextInt(20);
        int count = 1;
        while (count < most
            && i + count < number.size()
            && !number.get(i + count - 1).closes()
            && number.get(i + count).mark().isEmpty()
            && !number.get(i + count).meter().printed()
            && !number.get(i + count).opens()) {
          count++;
        }
        ShowBar at = number.get(i);
        boolean closes = number.get(i + count - 1).closes();
        bars.add(
            Bar.builder("b" + (bars.size() + 1), 1, 1, Outline.box(0, 0, 10, 10))
                .number(i + 1)
                .count(count)
                .content(count > 1 ? Content.MULTI_REST : Content.MUSIC)
                .meter(at.meter())
                .rehearsal(at.mark().map(m -> new RehearsalMark(m, Enclosure.BOX)))
                .startBarline(at.opens() ? Barline.REPEAT_START : Barline.NONE)
                .endBarline(closes ? Barline.REPEAT_END : Barline.SINGLE)
                .confidence(confidence)
                .build());
        i += count;
      }
      numbers.add(
          new MusicalNumber(
              Integer.toString(numbers.size() + 1),
              "",
              Optional.of(first),
              Optional.of("b" + bars.size()),
              false));
    }
    return BarMap.of(new Book("Saltmarsh", name), List.of(), numbers, bars);
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
  void howRestsAreBrokenIsNoDifference(long seed) {
    List<List<ShowBar>> show = show(seed);
    BarMap bass = part(show, 100 + seed, "Bass", 0.99);
    BarMap drums = part(show, 200 + seed, "Drums", 0.9);
    assertThat(bass.bars())
        .extracting(Bar::count)
        .isNotEqualTo(drums.bars().stream().map(Bar::count).toList());
    assertThat(BookAlignment.compare(bass, drums)).isEmpty();
  }

  /**
   * A bar of music gone or doubled, a rest one longer: named once, in its number, near its place.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
  void oneBarMoreOrLessIsOneDifferenceWithTheLessSurePartAsCulprit(long seed) {
    Random random = new Random(seed);
    List<List<ShowBar>> show = show(seed);
    List<List<ShowBar>> other = new ArrayList<>(show);
    int n = random.nextInt(NUMBERS);
    List<ShowBar> bars = new ArrayList<>(show.get(n));
    int at = 5 + random.nextInt(bars.size() - 10);
    while (bars.get(at).mark().isPresent()
        || bars.get(at).meter().printed()
        || bars.get(at).opens()
        || bars.get(at).closes()) {
      at--;
    }
    if (seed % 2 == 0) {
      bars.remove(at);
    } else {
      bars.add(at, bars.get(at));
    }
    other.set(n, bars);
    BarMap bass = part(show, 100 + seed, "Bass", 0.99);
    BarMap drums = part(other, 200 + seed, "Drums", 0.9);
    List<Difference> found = BookAlignment.compare(bass, drums);
    assertThat(found).hasSize(1);
    assertThat(found.get(0).kind()).isEqualTo("bars");
    assertThat(found.get(0).number()).isEqualTo(Integer.toString(n + 1));
    assertThat(found.get(0).text())
        .startsWith(seed % 2 == 0 ? "Bass has one bar more" : "Drums has one bar more");
    assertThat(found.get(0).culprit()).contains("B");
  }
}
