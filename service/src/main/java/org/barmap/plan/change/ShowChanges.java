package org.barmap.plan.change;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.plan.change.kind.ShowChange;

/**
 * All changes of a show, in the order they were made; format {@code changes/1}.
 *
 * @param changes switched on or off
 */
public record ShowChanges(List<ShowChange> changes) {

  /** The format's name, first key of every document. */
  public static final String FORMAT = "changes/1";

  /** Takes a defensive copy. */
  public ShowChanges {
    changes = List.copyOf(changes);
  }

  /** Returns no changes. */
  public static ShowChanges none() {
    return new ShowChanges(List.of());
  }

  /** Returns the given changes. */
  public static ShowChanges of(ShowChange... changes) {
    return new ShowChanges(List.of(changes));
  }

  /** Returns the changes that count: switched on, and no other one always stands in their place. */
  public List<ShowChange> active() {
    List<ShowChange> on = changes.stream().filter(c -> c.meta().on()).toList();
    return without(on, on.stream().filter(c -> c.meta().always()).toList());
  }

  /**
   * Returns changes without those that others stand in the place of. Where two stand in each
   * other's place, the later one counts.
   */
  public static List<ShowChange> without(List<ShowChange> changes, List<ShowChange> others) {
    Set<String> gone = new HashSet<>();
    for (int i = others.size() - 1; i >= 0; i--) {
      ShowChange other = others.get(i);
      if (!gone.contains(other.meta().id())) {
        other.meta().replaces().filter(r -> !r.equals(other.meta().id())).ifPresent(gone::add);
      }
    }
    return changes.stream().filter(c -> !gone.contains(c.meta().id())).toList();
  }

  /** Returns the change with an id. */
  public Optional<ShowChange> change(String id) {
    return changes.stream().filter(c -> c.meta().id().equals(id)).findFirst();
  }
}
