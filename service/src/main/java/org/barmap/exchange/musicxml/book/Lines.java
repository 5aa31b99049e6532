package org.barmap.exchange.musicxml.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/**
 * The lines of a book without pages: as the file breaks them, else so many bars a line. Their
 * places are made up, a line below a line, so that what draws bars finds them in order.
 */
final class Lines {
  /** Bars a line where the file says nothing; engravers put four to eight (common practice). */
  private static final int USUAL = 6;

  /** A page of a bar map has at most so many lines. */
  private static final int MOST_LINES = 200;

  private static final double WIDTH = 1200;
  private static final double MARGIN = 100;
  private static final double STEP = 100;
  private static final double SPACE = 10;
  private static final double STAFF = 4 * SPACE;

  private final String source;
  private final List<Page> pages = new ArrayList<>();
  private final List<StaffSystem> systems = new ArrayList<>();
  private final List<Bar> placed = new ArrayList<>();
  private final List<Bar> line = new ArrayList<>();

  private Lines(String source) {
    this.source = source;
  }

  /** An entry, where the file breaks before it, and whether a number begins with it. */
  record Entry(Bar bar, boolean newLine, boolean newPage, boolean begins) {}

  /** The pages, and the bars in their places. */
  record Laid(List<Page> pages, List<Bar> bars) {}

  static Laid lay(List<Entry> entries, String source) {
    Lines lines = new Lines(source);
    boolean broken = entries.stream().skip(1).anyMatch(e -> e.newLine || e.newPage);
    int usual = Math.max(USUAL, (entries.size() + MOST_LINES - 1) / MOST_LINES);
    for (Entry e : entries) {
      boolean full = e.begins || (broken ? e.newLine || e.newPage : lines.line.size() >= usual);
      if (full && !lines.line.isEmpty()) {
        lines.endLine();
      }
      if (e.newPage && !lines.systems.isEmpty() || lines.systems.size() == MOST_LINES) {
        lines.endPage();
      }
      lines.line.add(e.bar);
    }
    lines.endLine();
    lines.endPage();
    return new Laid(lines.pages, lines.placed);
  }

  private void endLine() {
    int system = systems.size() + 1;
    double top = MARGIN + systems.size() * STEP;
    Outline staff = Outline.box(MARGIN, top, WIDTH - MARGIN, top + STAFF);
    Bar first = line.get(0);
    Optional<Integer> printed =
        first.number() > 0 && first.label().isEmpty()
            ? Optional.of(first.number())
            : Optional.empty();
    systems.add(new StaffSystem(system, staff, SPACE, printed, 1, List.of()));
    for (int k = 0; k < line.size(); k++) {
      Outline outline = staff.slice((double) k / line.size(), (k + 1.0) / line.size()).rounded();
      placed.add(
          line.get(k).toBuilder().page(pages.size() + 1).system(system).outline(outline).build());
    }
    line.clear();
  }

  private void endPage() {
    int height = (int) Math.ceil(2 * MARGIN + systems.size() * STEP);
    pages.add(new Page(pages.size() + 1, source, (int) WIDTH, height, systems));
    systems.clear();
  }
}
