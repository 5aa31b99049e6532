package org.barmap.plan.words.earlier;

import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.kind.ShowChange;

/**
 * What is known already when words are read.
 *
 * @param changes the changes that were said before; empty where nobody knows which
 * @param today the day it is, ISO 8601; empty where nobody knows
 */
public record Known(Optional<List<ShowChange>> changes, Optional<String> today) {

  /** Nothing is known. */
  public static final Known NOTHING = new Known(Optional.empty(), Optional.empty());

  /** Takes a defensive copy. */
  public Known {
    changes = changes.map(List::copyOf);
  }

  /** Returns what is known where these changes were said before. */
  public static Known of(List<ShowChange> changes, Optional<String> today) {
    return new Known(Optional.of(changes), today);
  }

  /** Returns a number from which on ids of the form "n12" are free. */
  public int free() {
    return changes.orElse(List.of()).stream()
            .map(c -> c.meta().id())
            .filter(id -> id.matches("n\\d{1,8}"))
            .mapToInt(id -> Integer.parseInt(id.substring(1)))
            .max()
            .orElse(0)
        + 1;
  }
}
