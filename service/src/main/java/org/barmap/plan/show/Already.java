package org.barmap.plan.show;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Severity;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.mark.PencilMark;

/** Tells where a change asks for beats or times that are so anyway, so that nothing is written. */
public final class Already {
  private Already() {}

  /** Returns what is told, by what is written and told already. */
  public static List<PlanFinding> of(
      List<ShowChange> changes, List<PencilMark> marks, List<PlanFinding> told) {
    Set<String> seen = new HashSet<>();
    marks.forEach(m -> m.change().ifPresent(seen::add));
    told.forEach(f -> f.change().ifPresent(seen::add));
    return changes.stream()
        .filter(c -> c.effects().inForce().beats().isPresent() || c.effects().rounds().isPresent())
        .filter(c -> !seen.contains(c.meta().id()))
        .map(
            c ->
                PlanFinding.change(
                    Severity.INFO,
                    Optional.empty(),
                    "no-effect",
                    "These bars are counted, or played as often, so anyway; nothing is written.",
                    c))
        .toList();
  }
}
