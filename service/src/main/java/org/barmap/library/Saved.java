package org.barmap.library;

import java.util.List;
import java.util.function.Function;
import java.util.function.LongFunction;

/**
 * What came of a change to a revision.
 *
 * @param <T> kind of value
 */
public sealed interface Saved<T> {

  /**
   * Returns it when it is on disk.
   *
   * @param stale what to throw when someone else was faster, from the revision there is now
   * @param refused what to throw when it doesn't fit, from the reasons
   */
  Done<T> orElseThrow(
      LongFunction<? extends RuntimeException> stale,
      Function<List<String>, ? extends RuntimeException> refused);

  /**
   * It is on disk.
   *
   * @param now the value after it
   * @param entry its line in the history
   */
  record Done<T>(Versioned<T> now, HistoryEntry entry) implements Saved<T> {
    @Override
    public Done<T> orElseThrow(
        LongFunction<? extends RuntimeException> stale,
        Function<List<String>, ? extends RuntimeException> refused) {
      return this;
    }
  }

  /** Someone else was faster: nothing was changed. */
  record Stale<T>(long current) implements Saved<T> {
    @Override
    public Done<T> orElseThrow(
        LongFunction<? extends RuntimeException> stale,
        Function<List<String>, ? extends RuntimeException> refused) {
      throw stale.apply(current);
    }
  }

  /** It does not fit; one plain sentence each. */
  record Refused<T>(List<String> reasons) implements Saved<T> {

    /** Takes a defensive copy. */
    public Refused {
      reasons = List.copyOf(reasons);
    }

    @Override
    public Done<T> orElseThrow(
        LongFunction<? extends RuntimeException> stale,
        Function<List<String>, ? extends RuntimeException> refused) {
      throw refused.apply(reasons);
    }
  }
}
