package org.barmap.edit.merge;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Systems;
import org.barmap.map.Bar;
import org.barmap.map.Outline;
import org.barmap.map.Page;

/** Which lines of two pictures of one page are the same, and which bars in them. */
final class LinePairs {

  /** So much of two bars' common stretch must be in both. */
  private static final double MOST = 0.6;

  private LinePairs() {}

  /**
   * A line of a page.
   *
   * @param system its index; 0 for a place where a person said there is none
   */
  record Line(int system, Outline outline, List<Bar> bars) {

    double middle() {
      return Systems.middle(outline);
    }
  }

  /** Two things that are the same one. */
  record Pair<T>(T old, T read) {}

  /**
   * Pairs lines, both lists from top to bottom: by order when there are as many, else those that
   * lie at the same height of the page.
   */
  static List<Pair<Line>> lines(List<Line> old, Page before, List<Line> read, Page now) {
    List<Pair<Line>> pairs = new ArrayList<>();
    if (old.size() == read.size()) {
      for (int i = 0; i < old.size(); i++) {
        pairs.add(new Pair<>(old.get(i), read.get(i)));
      }
      return pairs;
    }
    double scale = (double) now.height() / Math.max(1, before.height());
    Set<Line> taken = new HashSet<>();
    for (Line line : old) {
      double top = line.outline.topLeft().y() * scale;
      double bottom = line.outline.bottomLeft().y() * scale;
      read.stream()
          .filter(r -> !taken.contains(r))
          .filter(
              r ->
                  Systems.share(top, bottom, r.outline.topLeft().y(), r.outline.bottomLeft().y())
                      > 0.5)
          .min(Comparator.comparingDouble(r -> Math.abs(r.middle() - line.middle() * scale)))
          .ifPresent(
              r -> {
                taken.add(r);
                pairs.add(new Pair<>(line, r));
              });
    }
    return pairs;
  }

  /**
   * Pairs the bars of a line: by order when there are as many, else by their share of the line, and
   * those left by their number.
   */
  static List<Pair<Bar>> bars(Line old, Line read) {
    List<Pair<Bar>> pairs = new ArrayList<>();
    if (old.bars.size() == read.bars.size()) {
      for (int i = 0; i < old.bars.size(); i++) {
        pairs.add(new Pair<>(old.bars.get(i), read.bars.get(i)));
      }
      return pairs;
    }
    List<Bar> left = new ArrayList<>(old.bars);
    List<Bar> open = new ArrayList<>();
    for (Bar bar : read.bars) {
      Optional<Bar> same =
          left.stream()
              .filter(o -> common(o, old.outline, bar, read.outline) > MOST)
              .max(Comparator.comparingDouble(o -> common(o, old.outline, bar, read.outline)));
      if (same.isPresent()) {
        left.remove(same.get());
        pairs.add(new Pair<>(same.get(), bar));
      } else {
        open.add(bar);
      }
    }
    for (Bar bar : open) {
      List<Bar> numbered = left.stream().filter(o -> o.number() == bar.number()).toList();
      if (numbered.size() == 1) {
        left.remove(numbered.get(0));
        pairs.add(new Pair<>(numbered.get(0), bar));
      }
    }
    return pairs;
  }

  /** The common stretch of two bars as a share of what they cover together. */
  private static double common(Bar old, Outline oldLine, Bar read, Outline readLine) {
    double scale =
        (Systems.right(readLine) - Systems.left(readLine))
            / Math.max(1, Systems.right(oldLine) - Systems.left(oldLine));
    double from =
        Systems.left(readLine) + (Systems.left(old.outline()) - Systems.left(oldLine)) * scale;
    double to =
        Systems.left(readLine) + (Systems.right(old.outline()) - Systems.left(oldLine)) * scale;
    double both =
        Math.min(to, Systems.right(read.outline())) - Math.max(from, Systems.left(read.outline()));
    double all =
        Math.max(to, Systems.right(read.outline())) - Math.min(from, Systems.left(read.outline()));
    return both / Math.max(1, all);
  }
}
