package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;

/** Keeps the systems of a page in order from top to bottom, and their bars with them. */
public final class Systems {

  private Systems() {}

  /** Returns where the bars of a system begin, or would begin, in reading order. */
  public static int position(Draft draft, int page, int system) {
    int at = 0;
    for (Bar bar : draft.map().bars()) {
      if (bar.page() < page || bar.page() == page && bar.system() < system) {
        at++;
      }
    }
    return at;
  }

  /** Gives a page other systems, numbered from top to bottom, and moves the bars along. */
  public static Draft arrange(Draft draft, int page, List<StaffSystem> systems) {
    List<StaffSystem> sorted =
        systems.stream().sorted(Comparator.comparingDouble(s -> middle(s.outline()))).toList();
    Map<Integer, Integer> indices = new HashMap<>();
    List<StaffSystem> numbered = new ArrayList<>();
    for (StaffSystem s : sorted) {
      indices.put(s.index(), numbered.size() + 1);
      numbered.add(withIndex(s, numbered.size() + 1));
    }
    List<Bar> bars =
        draft.map().bars().stream()
            .filter(b -> b.page() != page || indices.containsKey(b.system()))
            .map(b -> b.page() == page ? moved(b, indices) : b)
            .toList();
    List<Page> pages =
        draft.map().pages().stream()
            .map(p -> p.index() == page ? p.withSystems(numbered) : p)
            .toList();
    return draft.withPages(pages).withBars(bars);
  }

  private static Bar moved(Bar bar, Map<Integer, Integer> indices) {
    int now = indices.getOrDefault(bar.system(), bar.system());
    return now == bar.system() ? bar : bar.toBuilder().system(now).build();
  }

  public static StaffSystem withIndex(StaffSystem s, int index) {
    return new StaffSystem(
        index, s.outline(), s.staffSpace(), s.printedBarNumber(), s.confidence(), s.midline());
  }

  /** Returns the height of an outline's middle; pixels from the top. */
  public static double middle(Outline o) {
    return (o.topLeft().y() + o.topRight().y() + o.bottomLeft().y() + o.bottomRight().y()) / 4;
  }

  /** Tells whether two outlines lie mostly at the same place. */
  public static boolean overlap(Outline a, Outline b) {
    return level(a, b) && share(left(a), right(a), left(b), right(b)) > 0.5;
  }

  /** Tells whether two outlines lie mostly at the same height. */
  public static boolean level(Outline a, Outline b) {
    return share(top(a), bottom(a), top(b), bottom(b)) > 0.5;
  }

  /** Returns the overlap of two stretches, as a share of the shorter one. */
  public static double share(double a0, double a1, double b0, double b1) {
    double common = Math.min(a1, b1) - Math.max(a0, b0);
    double shorter = Math.max(1e-9, Math.min(a1 - a0, b1 - b0));
    return common / shorter;
  }

  private static double top(Outline o) {
    return (o.topLeft().y() + o.topRight().y()) / 2;
  }

  private static double bottom(Outline o) {
    return (o.bottomLeft().y() + o.bottomRight().y()) / 2;
  }

  /** Returns the middle of the left side; pixels. */
  public static double left(Outline o) {
    return o.leftMiddle().x();
  }

  /** Returns the middle of the right side; pixels. */
  public static double right(Outline o) {
    return o.rightMiddle().x();
  }
}
