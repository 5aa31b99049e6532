package org.barmap.reckon;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.Evidence;
import org.barmap.map.Finding;
import org.barmap.map.Stage;
import org.barmap.reckon.cells.RestEvidence;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.second.SecondBars;
import org.barmap.reckon.second.SecondMarks;
import org.barmap.reckon.second.SecondNumbers;
import org.barmap.reckon.write.FindingWriter;
import org.barmap.reckon.write.HandSet;
import org.barmap.reckon.write.Item;
import org.barmap.reckon.write.UnsureSigns;

/**
 * What is open in a map that was settled again, and what is only good to know.
 *
 * @param fixed what people set; what they answered is not asked again
 * @param settled the map, its numbers and counts as they are now
 */
record SettledFindings(Costs costs, Fixed fixed, BarMap settled) {

  /** Findings that a new settling can't judge anew; they stay until answered. */
  private static final Set<String> KEPT =
      Set.of(
          "barline-refused",
          "mark-settled",
          "number-start",
          "content-unsure",
          UnsureSigns.MARK,
          UnsureSigns.METER,
          SecondBars.CODE,
          SecondNumbers.CODE,
          SecondMarks.CODE,
          SecondEvidence.CODE);

  /**
   * Returns them, ordered by how many bars an error there would shift.
   *
   * @param before of the map before it was settled again
   * @param sure by bar, how sure its count is
   * @param other by bar, the next best count of its rest
   * @param jumps indices of the bars at which the numbers jump
   */
  List<Finding> of(List<Finding> before, double[] sure, int[] other, Set<Integer> jumps) {
    List<Bar> bars = settled.bars();
    Set<String> jumped = new HashSet<>();
    jumps.forEach(i -> jumped.add(bars.get(i).id()));
    Set<String> there = new HashSet<>();
    bars.forEach(b -> there.add(b.id()));
    Set<String> guessed = new HashSet<>();
    Set<String> doubtful = new HashSet<>();
    List<Finding> out = new ArrayList<>();
    for (Finding f : before) {
      String bar = f.bar().orElse("");
      boolean ours = f.stage() == Stage.RECKON;
      boolean open = !fixed.answered().contains(bar) && there.contains(bar);
      if (ours && open && f.code().equals("barline-missing")) {
        guessed.add(bar);
      } else if (ours && open && f.code().equals("barline-unsure")) {
        doubtful.add(bar);
      } else if (!ours || (open && isKept(f, jumped))) {
        out.add(f);
      }
    }
    List<Item> items = new ArrayList<>();
    for (int i = 0; i < bars.size(); i++) {
      items.add(item(bars.get(i), sure[i], other[i], guessed, doubtful));
    }
    FindingWriter writer = new FindingWriter(costs, items, byHand());
    for (int i : jumps) {
      int expected = bars.get(i - 1).nextNumber();
      boolean answered = fixed.answered().contains(bars.get(i).id());
      if (!answered && expected != bars.get(i).number()) {
        writer.missing(i, expected);
      }
    }
    out.addAll(writer.write());
    out.sort(Comparator.comparingDouble(Finding::weight).reversed());
    return List.copyOf(out);
  }

  /** What people set and did not confirm with the whole page. */
  private HandSet byHand() {
    Set<String> counts = new HashSet<>(fixed.counts());
    counts.removeAll(fixed.answered());
    Set<String> numbers = new HashSet<>(fixed.numbers());
    numbers.removeAll(fixed.answered());
    return new HandSet(counts, numbers);
  }

  /** Where the numbers jump now that is said anew, with what they jump to now. */
  private static boolean isKept(Finding f, Set<String> jumped) {
    return f.code().equals(FindingWriter.MISSING)
        ? !jumped.contains(f.bar().orElse(""))
        : KEPT.contains(f.code());
  }

  private Item item(Bar bar, double sure, int other, Set<String> guessed, Set<String> doubtful) {
    boolean answered = fixed.answered().contains(bar.id());
    List<Evidence.Alternative> counts = bar.evidence().map(Evidence::counts).orElse(List.of());
    Optional<Integer> own =
        bar.evidence().flatMap(Evidence::second).map(Evidence.Second::read).filter(n -> n > 0);
    Optional<Integer> read =
        own.or(
            () ->
                counts.stream().flatMap(a -> RestEvidence.numeral(a.text()).stream()).findFirst());
    boolean numbered = bar.content() == Content.MULTI_REST || (bar.isRest() && !counts.isEmpty());
    boolean open = numbered && !answered && !fixed.counts().contains(bar.id());
    List<String> printed =
        answered
            ? List.of()
            : bar.evidence().map(Evidence::numbers).orElse(List.of()).stream()
                .limit(1)
                .map(Evidence.Alternative::text)
                .toList();
    return new Item(
        bar,
        open,
        !answered && !fixed.counts().contains(bar.id()),
        read,
        sure,
        other,
        printed,
        guessed.contains(bar.id()),
        doubtful.contains(bar.id()));
  }
}
