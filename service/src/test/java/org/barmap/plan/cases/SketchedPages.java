package org.barmap.plan.cases;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * Gives the bars of a sketched book places on pages: lines at equal distance, bars equally wide.
 */
final class SketchedPages {

  private static final int WIDTH = 2480;
  private static final int HEIGHT = 3508;
  private static final int MARGIN = 200;
  private static final int LINE = 200;
  private static final int STAFF = 80;

  private SketchedPages() {}

  static List<Page> of(List<PageFacts> facts, List<Bar> bars) {
    List<Page> pages = new ArrayList<>();
    for (PageFacts fact : facts) {
      int last =
          bars.stream().filter(b -> b.page() == fact.index()).mapToInt(Bar::system).max().orElse(0);
      List<StaffSystem> systems = new ArrayList<>();
      int left = second(facts, fact) ? WIDTH : 0;
      for (int s = 1; s <= last; s++) {
        Outline where = Outline.box(left + MARGIN, top(s), left + WIDTH - MARGIN, top(s) + STAFF);
        systems.add(new StaffSystem(s, where, STAFF / 4.0, Optional.empty(), 1, List.of()));
      }
      String source = fact.picture().orElse("page-" + fact.index()) + ".png";
      int height = Math.max(HEIGHT, top(last + 1));
      int width = fact.picture().isPresent() ? 2 * WIDTH : WIDTH;
      pages.add(new Page(fact.index(), source, width, height, systems, fact.folio()));
    }
    return pages;
  }

  /** The second page of a picture stands beside the first, as the reader gives it. */
  private static boolean second(List<PageFacts> facts, PageFacts fact) {
    return fact.index() > 1
        && fact.picture().isPresent()
        && facts.get(fact.index() - 2).picture().equals(fact.picture());
  }

  static List<Bar> laidOut(List<Bar> bars) {
    List<Bar> placed = new ArrayList<>();
    for (Bar bar : bars) {
      List<Bar> line =
          bars.stream().filter(b -> b.page() == bar.page() && b.system() == bar.system()).toList();
      double width = (WIDTH - 2.0 * MARGIN) / line.size();
      double left = MARGIN + line.indexOf(bar) * width;
      int top = top(bar.system());
      placed.add(
          bar.toBuilder().outline(Outline.box(left, top, left + width, top + STAFF)).build());
    }
    return placed;
  }

  private static int top(int system) {
    return MARGIN + system * LINE;
  }
}
