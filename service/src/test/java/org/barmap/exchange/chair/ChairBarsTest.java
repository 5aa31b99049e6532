package org.barmap.exchange.chair;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.change.kind.Cut;
import org.barmap.plan.change.say.Meta;
import org.junit.jupiter.api.Test;

/** Bars are counted from the marks both books have; expectations counted by hand. */
class ChairBarsTest {
  private static final BarMap PART = Books.book("%7 1 2 3 4@mA 5 6 7@mB 8 9");
  private static final BarMap DIRECTOR = Books.book("%7 1 2 3 4 5 6@mA 7 8 9@mB 10 11 12");

  @Test
  void aBarIsCountedOnFromTheMarkBefore() {
    assertThat(new ChairBars(PART, DIRECTOR).of("7", "5")).contains("7");
    assertThat(new ChairBars(DIRECTOR, PART).of("7", "10")).contains("8");
  }

  @Test
  void nothingIsSaidWhereTheBooksDisagree() {
    assertThat(new ChairBars(PART, DIRECTOR).of("7", "2")).isEmpty();
    assertThat(new ChairBars(DIRECTOR, PART).of("7", "12")).isEmpty();
    assertThat(new ChairBars(PART, DIRECTOR).of("8", "2")).isEmpty();
  }

  /**
   * Two endings are numbered alike here, straight on in the director's (common practice): of 3 it
   * is open which is meant, so both are said.
   */
  @Test
  void aBarThatOccursTwiceHasBothOfTheirs() {
    BarMap alike = Books.book("%7 |:1 2 3/1 4/1:| 5/2@n3 6/2 7@n5@mB 8 9");
    BarMap straight = Books.book("%7 |:1 2 3/1 4/1:| 5/2 6/2 7@mB 8 9");
    TheirBars theirs = new TheirBars(TwoParts.of(alike, straight, List.of()), "Director");
    assertThat(theirs.beside("7", "3", "3")).contains("Director 3 or 5");
    assertThat(theirs.beside("7", "3 in the 2nd ending", "3 in the 2nd ending"))
        .contains("Director 5");
    assertThat(theirs.beside("7", "1", "1")).isEmpty();
    assertThat(theirs.beside("7", "5", "6")).contains("Director 7 to 8");
    TheirBars same = new TheirBars(TwoParts.of(alike, alike, List.of()), "Director");
    assertThat(same.beside("7", "3", "3")).isEmpty();
  }

  @Test
  void aCutListHasBothBooksBars() {
    Cut cut = new Cut(Meta.of("c"), "7", "5", "8");
    Cut early = new Cut(Meta.of("d"), "7", "2", "2");
    assertThat(new ChairBars(PART, DIRECTOR).beside(List.of(cut, early), "the director's"))
        .containsExactly(
            "No. 7: cut 5 to 8 [the director's 7 to 10]",
            "No. 7: cut 2 [the director's bars are not known]");
  }
}
