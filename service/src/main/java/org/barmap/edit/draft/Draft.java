package org.barmap.edit.draft;

import java.util.Comparator;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.Severity;

/** A book's map as it stands, and what of it people have settled. */
public record Draft(BarMap map, Settled settled) {

  /** Returns a draft in which nothing is settled yet. */
  public static Draft of(BarMap map) {
    return new Draft(map, Settled.NOTHING);
  }

  /** Returns a copy with another map. */
  public Draft with(BarMap newMap) {
    return new Draft(newMap, settled);
  }

  /** Returns a copy with other things settled. */
  public Draft with(Settled newSettled) {
    return new Draft(map, newSettled);
  }

  /** Returns a copy with other bars. */
  public Draft withBars(List<Bar> bars) {
    return with(map.withBars(bars));
  }

  /** Returns a copy with other musical numbers. */
  public Draft withNumbers(List<MusicalNumber> numbers) {
    return with(
        new BarMap(map.format(), map.book(), map.pages(), numbers, map.bars(), map.findings()));
  }

  /** Returns a copy with other pages. */
  public Draft withPages(List<Page> pages) {
    return with(
        new BarMap(map.format(), map.book(), pages, map.numbers(), map.bars(), map.findings()));
  }

  /** Returns the bars of one system, left to right. */
  public List<Bar> barsIn(int page, int system) {
    return map.bars().stream().filter(b -> b.page() == page && b.system() == system).toList();
  }

  /** Tells whether every page has been confirmed by a person. */
  public boolean isVerified() {
    return !map.pages().isEmpty()
        && map.pages().stream().allMatch(p -> settled.verifiedPages().contains(p.index()));
  }

  /**
   * Returns the findings nobody has answered yet, the weightiest first; on a verified page only
   * errors.
   */
  public List<Finding> openFindings() {
    return Resettling.findings(this).stream()
        .filter(f -> !settled.dismissed().contains(Settled.key(f)))
        .filter(
            f ->
                f.severity() == Severity.ERROR
                    || f.page().filter(settled.verifiedPages()::contains).isEmpty())
        .sorted(Comparator.comparingDouble(Finding::weight).reversed())
        .toList();
  }
}
