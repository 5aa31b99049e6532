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
   * Returns changes without those that others stand in the place of. What came in the place of one
   * that came in another's place stands for both; where it only takes that one back, the other one
   * counts again. Where two stand in each other's place, the later one counts.
   */
  public static List<ShowChange> without(List<ShowChange> changes, List<ShowChange> others) {
    Set<String> gone = new HashSet<>();
    Set<String> undone = new HashSet<>();
    Set<String> kept = new HashSet<>();
    for (int i = others.size() - 1; i >= 0; i--) {
      ShowChange other = others.get(i);
      String id = other.meta().id();
      String old = other.meta().replaces().filter(r -> !r.equals(id)).orElse("");
      boolean counts = !gone.contains(id);
      if (counts) {
        kept.add(id);
      }
      if (!old.isEmpty() && (counts || !undone.contains(id) && !kept.contains(old))) {
        gone.add(old);
        if (other.takesBack()) {
          undone.add(old);
        }
      }
    }
    return changes.stream().filter(c -> !gone.contains(c.meta().id())).toList();
  }

  /** Returns the change with an id. */
  public Optional<ShowChange> change(String id) {
    return changes.stream().filter(c -> c.meta().id().equals(id)).findFirst();
  }
}
