package org.barmap.library;

import java.util.List;

/**
 * What came of a change to a revision.
 *
 * @param <T> kind of value
 */
public sealed interface Saved<T> {

  /**
   * It is on disk.
   *
   * @param now the value after it
   * @param entry its line in the history
   */
  record Done<T>(Versioned<T> now, HistoryEntry entry) implements Saved<T> {}

  /** Someone else was faster: nothing was changed. */
  record Stale<T>(long current) implements Saved<T> {}

  /** It does not fit; one plain sentence each. */
  record Refused<T>(List<String> reasons) implements Saved<T> {

    /** Takes a defensive copy. */
    public Refused {
      reasons = List.copyOf(reasons);
    }
  }
}
