package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Page;
import org.barmap.map.Severity;

/**
 * A book's map as it stands, and what of it people have settled.
 *
 * @param map its findings are those of the reading
 * @param settled what people have settled
 * @param open what follows from both: the findings nobody has answered yet, the weightiest first;
 *     on a verified page only errors. Worked out once when a change of the draft is complete
 *     ({@link Resettling}), and kept with it
 */
public record Draft(BarMap map, Settled settled, List<Finding> open) {

  /** Takes a defensive copy. */
  public Draft {
    open = List.copyOf(open);
  }

  /** Returns a draft in which nothing is settled yet: open is what the reading found. */
  public static Draft of(BarMap map) {
    return new Draft(map, Settled.NOTHING, List.of()).asking(map.findings());
  }

  /** Returns a copy with another map. */
  public Draft with(BarMap newMap) {
    return new Draft(newMap, settled, open);
  }

  /** Returns a copy with other things settled. */
  public Draft with(Settled newSettled) {
    return new Draft(map, newSettled, open);
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

  /** Returns a copy in which of these findings those are open that nobody has answered. */
  Draft asking(List<Finding> findings) {
    List<Finding> all = new ArrayList<>(findings);
    all.addAll(Contradictions.of(map, settled, findings));
    List<Finding> unanswered =
        all.stream()
            .filter(f -> !settled.isAnswered(f, map))
            .filter(
                f ->
                    f.severity() == Severity.ERROR
                        || f.page().filter(settled.verifiedPages()::contains).isEmpty())
            .sorted(Comparator.comparingDouble(Finding::weight).reversed())
            .toList();
    return new Draft(map, settled, unanswered);
  }

  /** Returns how many findings wait for an answer; what is only good to know does not. */
  public int doubts() {
    return (int) open.stream().filter(f -> f.severity() != Severity.INFO).count();
  }

  /** Returns a copy in which doubts are answered, and no longer open. */
  public Draft answered(List<Finding> doubts) {
    Set<String> claims = new HashSet<>();
    doubts.forEach(f -> claims.add(Settled.claim(f, map)));
    return new Draft(map, settled.withDismissed(claims), open).asking(open);
  }
}
