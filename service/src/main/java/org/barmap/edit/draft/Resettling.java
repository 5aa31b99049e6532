package org.barmap.edit.draft;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.Settler;

/**
 * Settles the rest of a book again after a correction, from the evidence its bars keep.
 *
 * <p>What people set or verified stays; a map without evidence (typed in, or of another program)
 * stays as it is.
 */
public final class Resettling {

  private Resettling() {}

  /**
   * Returns the draft with counts and numbers nobody set worked out anew, and what is open then.
   */
  public static Draft settled(Draft draft) {
    if (!hasEvidence(draft.map())) {
      return draft.asking(draft.map().findings());
    }
    BarMap again = again(draft);
    return draft.withBars(again.bars()).asking(again.findings());
  }

  /** Returns the draft as it is, with what is open in it. */
  public static Draft judged(Draft draft) {
    List<Finding> findings =
        hasEvidence(draft.map()) ? again(draft).findings() : draft.map().findings();
    return draft.asking(findings);
  }

  private static BarMap again(Draft draft) {
    return new Settler().settle(draft.map(), fixed(draft));
  }

  private static boolean hasEvidence(BarMap map) {
    return map.bars().stream().anyMatch(Resettling::hasEvidence);
  }

  private static boolean hasEvidence(Bar bar) {
    return bar.evidence().filter(e -> !e.numbers().isEmpty() || !e.counts().isEmpty()).isPresent();
  }

  /** Bars of musical numbers in which no bar keeps evidence: nothing there speaks for another. */
  private static Set<String> withoutEvidence(BarMap map) {
    Set<String> starts = Steps.startsOf(map);
    Set<String> all = new HashSet<>();
    List<String> own = new ArrayList<>();
    boolean evidence = false;
    for (Bar bar : map.bars()) {
      if (starts.contains(bar.id())) {
        all.addAll(evidence ? List.of() : own);
        own.clear();
        evidence = false;
      }
      own.add(bar.id());
      evidence = evidence || hasEvidence(bar);
    }
    all.addAll(evidence ? List.of() : own);
    return all;
  }

  private static Fixed fixed(Draft draft) {
    Set<String> counts = new HashSet<>();
    Set<String> numbers = withoutEvidence(draft.map());
    Set<String> answered = new HashSet<>();
    Settled settled = draft.settled();
    for (Bar bar : draft.map().bars()) {
      boolean verified = settled.verifiedPages().contains(bar.page());
      Set<Aspect> set = settled.of(bar.id());
      boolean given = bar.evidence().isEmpty() && !set.contains(Aspect.SHAPE);
      if (verified || given || set.contains(Aspect.COUNT) || set.contains(Aspect.CONTENT)) {
        counts.add(bar.id());
      }
      if (verified || set.contains(Aspect.NUMBER)) {
        numbers.add(bar.id());
      }
      if (verified) {
        answered.add(bar.id());
      }
    }
    return new Fixed(counts, numbers, answered);
  }
}
