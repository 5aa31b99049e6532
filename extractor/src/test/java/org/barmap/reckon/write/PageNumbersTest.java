package org.barmap.reckon.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Page;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;
import org.barmap.sign.kind.Folio;
import org.junit.jupiter.api.Test;

/** Common practice: the pages of a bound part are numbered on by one a page. */
class PageNumbersTest {

  @Test
  void numbersThatCountOnWithTheirPagesAreBelieved() {
    assertThat(PageNumbers.believed(book(14, 0, 16))).isEqualTo(Map.of(1, 14, 3, 16));
  }

  @Test
  void oneAloneIsNot() {
    assertThat(PageNumbers.believed(book(14, 0, 0))).isEmpty();
  }

  @Test
  void oneThatDoesNotFitIsLeftOut() {
    assertThat(PageNumbers.believed(book(14, 15, 61, 17))).isEqualTo(Map.of(1, 14, 2, 15, 4, 17));
  }

  @Test
  void ofTwoCountsThatAsManyPagesSayNoneIsBelieved() {
    assertThat(PageNumbers.believed(book(14, 15, 31, 32))).isEmpty();
    assertThat(PageNumbers.believed(book(14, 18))).isEmpty();
  }

  @Test
  void theMapHasTheBelievedOnes() {
    BarMap map = new Reckoner().reckon(new Book("Saltmarsh", "Bass"), book(2, 8, 4));
    assertThat(map.pages())
        .extracting(Page::folio)
        .containsExactly(Optional.of(2), Optional.empty(), Optional.of(4));
  }

  /** A page for each number; 0 where none was seen. */
  private static List<ReadPage> book(int... numbers) {
    List<ReadPage> pages = new ArrayList<>();
    for (int n : numbers) {
      Optional<Folio> folio = n == 0 ? Optional.empty() : Optional.of(new Folio(n, 0.5));
      pages.add(
          new ReadPage(pages.size() + 1, "page.png", 1000, 1400, List.of(), folio, List.of()));
    }
    return pages;
  }
}
