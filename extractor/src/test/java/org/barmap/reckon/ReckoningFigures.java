package org.barmap.reckon;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.reckon.cost.Costs;

/** Measures what reckoning does for made books with known truth. */
final class ReckoningFigures {

  Costs costs = Costs.DEFAULT;
  int bars;
  int right;
  int naive;
  int injected;
  int found;
  int findings;
  long nanos;

  void add(MadeBook book) {
    long t0 = System.nanoTime();
    BarMap map = new Reckoner(costs).reckon(new Book("made", ""), book.pages);
    nanos += System.nanoTime() - t0;
    findings += map.findings().size();
    List<String> systems = new ArrayList<>();
    map.pages().forEach(p -> p.systems().forEach(s -> systems.add(p.index() + "/" + s.index())));
    for (MadeBook.TrueBar t : book.truth) {
      bars++;
      right += at(map, systems.get(t.system()), t) == t.number() ? 1 : 0;
    }
    naive += Naive.right(book);
    int top = Math.max(1, book.injected.size());
    for (MadeBook.Injected e : book.injected) {
      injected++;
      List<Finding> first = map.findings().subList(0, Math.min(map.findings().size(), 2 * top));
      found += isFound(first, systems.get(e.system())) ? 1 : 0;
    }
  }

  /** An error counts as found when a finding names its system. */
  private static boolean isFound(List<Finding> top, String system) {
    return top.stream()
        .anyMatch(f -> system.equals(f.page().orElse(0) + "/" + f.system().orElse(0)));
  }

  /**
   * The number the map gives the bar at a true bar's place, or -1 where no bar covers half of it.
   */
  private static int at(BarMap map, String system, MadeBook.TrueBar t) {
    for (Bar b : map.bars()) {
      if (!system.equals(b.page() + "/" + b.system())) {
        continue;
      }
      double from = b.outline().topLeft().x() / 10;
      double to = b.outline().topRight().x() / 10;
      double common = Math.min(to, t.to()) - Math.max(from, t.from());
      double union = Math.max(to, t.to()) - Math.min(from, t.from());
      if (common > 0.5 * union) {
        return b.number();
      }
    }
    return -1;
  }

  @Override
  public String toString() {
    return String.format(
        "bars %d, right %.4f (naive %.4f), injected %d, found %.3f, findings %d, %.1f ms",
        bars,
        right / (double) bars,
        naive / (double) bars,
        injected,
        injected == 0 ? 1 : found / (double) injected,
        findings,
        nanos / 1e6);
  }
}
