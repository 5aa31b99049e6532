package org.barmap.plan.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.barmap.map.Bar;
import org.barmap.map.Evidence;
import org.barmap.map.Origin;

/**
 * Gathers bars that something hangs on, and tells those that nobody has looked at: counts one by
 * one, the other bars page by page.
 */
public final class HangsOn {
  private static final int MOST_COUNTS = 4;

  /** Another reading of a numeral is told from this probability on. */
  private static final double LIKELY = 0.1;

  private final List<String> counts = new ArrayList<>();
  private final Set<Integer> pages = new TreeSet<>();
  private final Set<Integer> missing = new TreeSet<>();
  private final Set<String> seen = new java.util.HashSet<>();
  private int more;
  private Bar first;
  private Bar last;

  /** Begins with a bar. */
  public HangsOn(Bar start) {
    this.first = start;
    this.last = start;
    add(start);
  }

  /** Tells whether a person has looked at a bar. */
  public static boolean lookedAt(Bar bar) {
    return bar.origin() == Origin.CORRECTED || bar.origin() == Origin.VERIFIED;
  }

  /** Adds a bar; one that was looked at, or is there already, adds nothing. */
  public void add(Bar bar) {
    if (lookedAt(bar) || !seen.add(bar.id())) {
      return;
    }
    if (bar.count() > 1) {
      if (counts.size() < MOST_COUNTS) {
        counts.add(count(bar));
      } else {
        more++;
      }
      return;
    }
    if (pages.isEmpty()) {
      first = bar;
    }
    last = bar;
    pages.add(bar.page());
  }

  /** Adds a page that could not be read. */
  public void addMissing(int page) {
    missing.add(page);
  }

  private static String count(Bar bar) {
    List<String> others =
        bar.evidence().map(Evidence::counts).orElse(List.of()).stream()
            .filter(a -> a.probability() >= LIKELY)
            .map(Evidence.Alternative::text)
            .filter(t -> !t.equals(Integer.toString(bar.count())))
            .limit(2)
            .toList();
    return "count "
        + bar.count()
        + (others.isEmpty() ? "" : " (or " + String.join(" or ", others) + ")")
        + " at bar "
        + name(bar)
        + ", page "
        + bar.page();
  }

  private static String name(Bar bar) {
    return bar.label().orElse(Integer.toString(bar.number()));
  }

  /** Returns what nobody has looked at, in words; empty when everything was. */
  public List<String> told() {
    List<String> told = new ArrayList<>();
    missing.forEach(p -> told.add("page " + p + ", which could not be read"));
    told.addAll(counts);
    if (more > 0) {
      told.add(more + " more counts");
    }
    if (pages.size() == 1) {
      boolean one = first.id().equals(last.id());
      told.add(
          (one ? "bar " + name(first) : "bars " + name(first) + " to " + name(last))
              + ", page "
              + first.page());
    } else if (!pages.isEmpty()) {
      List<Integer> all = List.copyOf(pages);
      told.add("pages " + all.get(0) + " to " + all.get(all.size() - 1));
    }
    return told;
  }
}
