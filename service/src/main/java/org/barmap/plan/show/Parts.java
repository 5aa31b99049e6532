package org.barmap.plan.show;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Severity;
import org.barmap.plan.change.Addresses;
import org.barmap.plan.change.Found;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;

/** Takes changes of more than one number apart into changes of each. */
public final class Parts {
  private Parts() {}

  /**
   * Returns the changes as each number has them.
   *
   * @param night the numbers in the order of the night
   */
  public static List<ShowChange> of(
      List<ShowChange> changes, List<WrittenNumber> night, List<PlanFinding> findings) {
    List<String> labels = night.stream().map(WrittenNumber::label).toList();
    List<ShowChange> all = new ArrayList<>();
    for (ShowChange change : changes) {
      List<ShowChange> parts = change.parts(labels);
      if (parts.equals(List.of(change))) {
        all.add(change);
      } else if (onward(parts, labels)) {
        parts.stream().filter(p -> says(p, night)).forEach(all::add);
      } else {
        findings.add(
            PlanFinding.change(
                Severity.ERROR,
                Optional.empty(),
                "goes-backwards",
                "This goes to a number that comes earlier, or to none of this book: it does nothing."
                    + " A number that is played again is put in the order of numbers.",
                change));
      }
    }
    return all;
  }

  private static boolean onward(List<ShowChange> parts, List<String> labels) {
    int first = labels.indexOf(parts.get(0).number());
    int last = labels.indexOf(parts.get(parts.size() - 1).number());
    return first >= 0 && last > first;
  }

  /** Nothing lies behind the last bar, or before the first one. */
  private static boolean says(ShowChange part, List<WrittenNumber> night) {
    Optional<Stretch> where = part.where();
    Optional<WrittenNumber> number =
        night.stream().filter(n -> n.label().equals(part.number())).findFirst();
    if (where.isEmpty() || number.isEmpty()) {
      return true;
    }
    Addresses addresses = new Addresses(number.get());
    return addresses.find(where.get().first()) instanceof Found.At
        && addresses.find(where.get().last()) instanceof Found.At;
  }
}
