package org.barmap.plan.change.term;

import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;

/**
 * What words came to lately: a book has few that are different, and each step plans all of them.
 *
 * @param <K> words, with all else that their meaning follows from
 * @param <V> what they mean
 */
final class Heard<K, V> {

  /** Words of some dozens of books. */
  private static final int MOST = 4_000;

  private final ConcurrentHashMap<K, V> known = new ConcurrentHashMap<>();

  /** Returns what words mean, worked out where it isn't known. */
  V of(K words, Supplier<V> work) {
    V before = known.get(words);
    if (before != null) {
      return before;
    }
    V now = work.get();
    if (known.size() >= MOST) {
      known.clear();
    }
    known.put(words, now);
    return now;
  }
}
