package org.barmap.edit.draft;

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

  /** Returns the draft with counts and numbers nobody set worked out anew. */
  public static Draft settled(Draft draft) {
    return hasEvidence(draft.map()) ? draft.withBars(again(draft).bars()) : draft;
  }

  /** Returns the findings as they stand after what people settled so far. */
  public static List<Finding> findings(Draft draft) {
    return hasEvidence(draft.map()) ? again(draft).findings() : draft.map().findings();
  }

  private static BarMap again(Draft draft) {
    return new Settler().settle(draft.map(), fixed(draft));
  }

  private static boolean hasEvidence(BarMap map) {
    return map.bars().stream()
        .flatMap(b -> b.evidence().stream())
        .anyMatch(e -> !e.numbers().isEmpty() || !e.counts().isEmpty());
  }

  private static Fixed fixed(Draft draft) {
    Set<String> counts = new HashSet<>();
    Set<String> numbers = new HashSet<>();
    Set<String> answered = new HashSet<>();
    Settled settled = draft.settled();
    for (Bar bar : draft.map().bars()) {
      boolean verified = settled.verifiedPages().contains(bar.page());
      Set<Aspect> set = settled.of(bar.id());
      if (verified || set.contains(Aspect.COUNT) || set.contains(Aspect.CONTENT)) {
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
