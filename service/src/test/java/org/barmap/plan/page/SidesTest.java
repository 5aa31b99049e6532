package org.barmap.plan.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;
import org.barmap.plan.change.PlanFinding;
import org.junit.jupiter.api.Test;

/**
 * How pages lie. Odd printed numbers are on the right (MOLA guidelines, Yale copy); a leaf has two
 * sides, so that of two pages with consecutive numbers exactly the odd one faces the one before it.
 */
class SidesTest {

  @Test
  void pagesOfOneDocumentAreNoOpening() {
    Sides sides = sides(page(1, "book.pdf", across(100)), page(2, "book.pdf", across(100)));
    assertThat(sides.side(1)).isEqualTo(Side.UNKNOWN);
    assertThat(sides.turned(1, 2)).isTrue();
  }

  @Test
  void twoPagesSideBySideInOnePictureAreAnOpening() {
    Sides sides = sides(page(1, "a.jpg", across(100)), page(2, "a.jpg", across(1100)));
    assertThat(sides.side(1)).isEqualTo(Side.LEFT);
    assertThat(sides.turned(1, 2)).isFalse();
  }

  @Test
  void aPictureTakenWithTheCameraTurnedIsAnOpeningToo() {
    Sides sides = sides(page(1, "a.jpg", down(100)), page(2, "a.jpg", down(1100)));
    assertThat(sides.side(1)).isEqualTo(Side.LEFT);
    assertThat(sides.turned(1, 2)).isFalse();
  }

  @Test
  void aBlankPageOfAnOpeningFacesTheOther() {
    Page blank = new Page(2, "a.jpg", 2000, 2000, List.of());
    assertThat(sides(page(1, "a.jpg", across(100)), blank).turned(1, 2)).isFalse();
  }

  @Test
  void aLongJumpOfNumbersIsToldOnce() {
    Sides sides = sides(numbered(1, 1), numbered(2, 9000));
    assertThat(sides.findings()).extracting(PlanFinding::code).containsExactly("pages-missing");
  }

  /**
   * Any pages of a book, taken in order and numbered where they happen to be, lie as the leaves of
   * the book do: page p is the front of leaf (p + 1) / 2 where p is odd, else its back.
   */
  @Test
  void sidesAndLeavesFollowThePrintWhereverItIsRead() {
    Random random = new Random(12);
    for (int round = 0; round < 500; round++) {
      List<Integer> folios = new ArrayList<>();
      List<Page> pages = new ArrayList<>();
      int folio = 1 + random.nextInt(6);
      for (int i = 1; i <= 12; i++) {
        boolean gap = random.nextInt(5) == 0;
        folio += i == 1 ? 0 : 1 + (gap ? random.nextInt(4) : 0);
        folios.add(folio);
        pages.add(i == 1 || gap || random.nextBoolean() ? numbered(i, folio) : unnumbered(i));
      }
      Sides sides = sides(pages.toArray(Page[]::new));
      for (int i = 1; i <= 12; i++) {
        int printed = folios.get(i - 1);
        assertThat(sides.side(i))
            .as("%s page %s", folios, i)
            .isEqualTo(printed % 2 == 0 ? Side.LEFT : Side.RIGHT);
        int leavesFromFirst = printed / 2 - folios.get(0) / 2;
        assertThat(sides.leaves(1, i)).as("%s page %s", folios, i).isEqualTo(leavesFromFirst);
      }
    }
  }

  private static Sides sides(Page... pages) {
    BarMap map = BarMap.of(new Book("Saltmarsh", "Bass"), List.of(pages), List.of(), List.of());
    return Sides.of(map, Optional.empty(), Map.of());
  }

  private static Page page(int index, String source, Outline line) {
    StaffSystem system = new StaffSystem(1, line, 20, Optional.empty(), 1, List.of());
    return new Page(index, source, 2000, 2000, List.of(system));
  }

  private static Page unnumbered(int index) {
    return page(index, "page-" + index + ".png", across(100));
  }

  private static Page numbered(int index, int folio) {
    Page page = unnumbered(index);
    return new Page(index, page.source(), 2000, 2000, page.systems(), Optional.of(folio));
  }

  private static Outline across(double left) {
    return Outline.box(left, 300, left + 800, 380);
  }

  /** A line that runs down the picture, as the camera was turned. */
  private static Outline down(double top) {
    return new Outline(
        new Point(380, top),
        new Point(380, top + 800),
        new Point(300, top + 800),
        new Point(300, top));
  }
}
