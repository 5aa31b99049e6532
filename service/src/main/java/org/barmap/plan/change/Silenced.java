package org.barmap.plan.change;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.effect.Silence;
import org.barmap.plan.change.kind.ShowChange;

/**
 * The change that says a number isn't played.
 *
 * @param change the change
 * @param why cut or tacet
 */
public record Silenced(ShowChange change, Silence why) {

  /**
   * Returns the one that counts among the changes of a number: a cut before a tacet; a number that
   * is in again is played.
   */
  public static Optional<Silenced> by(List<ShowChange> changes) {
    int again = 0;
    for (int i = 0; i < changes.size(); i++) {
      boolean back = changes.get(i).effects().course().restores();
      again = back && changes.get(i).where().isEmpty() ? i : again;
    }
    return changes.subList(again, changes.size()).stream()
        .flatMap(c -> c.effects().silence().map(s -> new Silenced(c, s)).stream())
        .min(Comparator.comparing(Silenced::why));
  }
}
