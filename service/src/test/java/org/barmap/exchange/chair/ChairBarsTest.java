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
