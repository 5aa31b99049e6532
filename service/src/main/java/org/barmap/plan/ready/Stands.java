package org.barmap.plan.ready;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.term.InstrumentNames;

/**
 * Looks whether every instrument that is taken up stands ready. Each of a chair's instruments has a
 * stand of its own (common practice); one that the player didn't name has none that is known.
 */
public final class Stands {
  private Stands() {}

  /** Returns what is told; nothing where the player named no instruments. */
  public static List<PlanFinding> missing(List<GetReady> ready, Chair chair) {
    Set<String> known = new HashSet<>();
    chair.doublings().forEach(d -> known.add(InstrumentNames.full(d)));
    chair.inHand().ifPresent(i -> known.add(InstrumentNames.full(i)));
    List<PlanFinding> findings = new ArrayList<>();
    for (GetReady change : ready) {
      boolean told = change.kind() != GetReady.Kind.INSTRUMENT || chair.doublings().isEmpty();
      if (!told && known.add(change.to())) {
        findings.add(
            PlanFinding.form(
                Severity.DOUBT,
                change.at(),
                "no-stand",
                "No stand is named for the "
                    + change.to()
                    + ", which is taken up here; the chair has "
                    + String.join(", ", chair.doublings())
                    + ". The time goes by one that stands ready."));
      }
    }
    return findings;
  }
}
