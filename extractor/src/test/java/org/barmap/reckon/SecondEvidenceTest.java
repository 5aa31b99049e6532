package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.SecondReading;
import org.junit.jupiter.api.Test;

/** A second reading of made books whose numerals were misread. */
class SecondEvidenceTest {

  @Test
  void aTrueSecondReadingHelpsWithMisreadRests() {
    long before = 0;
    long after = 0;
    for (long seed = 500; seed < 510; seed++) {
      MadeBook book = new MadeBook(seed, 4, new MadeBook.Errors(0, 0, 0.15, 0.15));
      BarMap map = new Reckoner().reckon(new Book("made", ""), book.pages);
      List<SecondReading.Measure> measures = new ArrayList<>();
      for (MadeBook.TrueBar t : book.truth) {
        for (int i = 0; i < t.count(); i++) {
          measures.add(measure(t.number() + i, t.count() > 1, i == 0 ? t.count() : 0));
        }
      }
      BarMap settled =
          new SecondEvidence(0.9)
              .settle(map, new SecondReading.Part("P1", "Bass", measures), Fixed.NOTHING);
      before += wrong(map, book);
      after += wrong(settled, book);
    }
    assertThat(before).isPositive();
    assertThat(after).isLessThan(before);
  }

  private static long wrong(BarMap map, MadeBook book) {
    long wrong = 0;
    for (int i = 0; i < book.truth.size(); i++) {
      Bar bar = map.bars().get(i);
      wrong += bar.number() == book.truth.get(i).number() ? 0 : 1;
    }
    return wrong;
  }

  private static SecondReading.Measure measure(int number, boolean rest, int multiRest) {
    return new SecondReading.Measure(
        Integer.toString(number),
        number == 0,
        Optional.empty(),
        Optional.empty(),
        rest,
        multiRest > 1 ? multiRest : 0,
        Barline.NONE,
        Barline.SINGLE,
        Optional.empty(),
        Optional.empty(),
        List.of(),
        List.of());
  }
}
