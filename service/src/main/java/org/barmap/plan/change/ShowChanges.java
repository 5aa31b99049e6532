package org.barmap.plan.change;

import java.util.List;
import java.util.Optional;
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

  /** Returns the changes that count. */
  public List<ShowChange> active() {
    return changes.stream().filter(c -> c.meta().on()).toList();
  }

  /** Returns the change with an id. */
  public Optional<ShowChange> change(String id) {
    return changes.stream().filter(c -> c.meta().id().equals(id)).findFirst();
  }
}
