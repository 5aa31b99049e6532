package org.barmap.web.planned;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.function.Predicate;
import java.util.function.Supplier;

/**
 * What was worked out lately, the latest used up to a weight in all. What several ask for at the
 * same time is worked out once, and they wait for it.
 *
 * @param <K> what it follows from
 * @param <V> what was worked out
 */
final class Lately<K, V> {

  private final long most;
  private final Map<K, Held<V>> held = new LinkedHashMap<>(16, 0.75f, true);
  private long weight;

  /** Makes one that holds this weight at the most, or one thing that is heavier. */
  Lately(long most) {
    this.most = most;
  }

  private record Held<V>(FutureTask<V> work, long weight) {}

  /**
   * Returns what follows from a key.
   *
   * @param heavy how much it weighs
   */
  V of(K key, long heavy, Supplier<V> work) {
    Held<V> mine = new Held<>(new FutureTask<>(work::get), heavy);
    Held<V> there;
    synchronized (held) {
      Held<V> known = held.get(key);
      there = known == null ? mine : known;
      if (known == null) {
        held.put(key, mine);
        weight += heavy;
        lighten();
      }
    }
    if (there == mine) {
      mine.work.run();
    }
    try {
      return there.work.get();
    } catch (ExecutionException e) {
      drop(key, there);
      if (e.getCause() instanceof Error error) {
        throw error;
      }
      throw e.getCause() instanceof RuntimeException failed ? failed : new IllegalStateException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private void lighten() {
    Iterator<Held<V>> eldest = held.values().iterator();
    while (weight > most && held.size() > 1) {
      weight -= eldest.next().weight;
      eldest.remove();
    }
  }

  /** Forgets what follows from some keys. */
  void forget(Predicate<K> which) {
    synchronized (held) {
      Iterator<Map.Entry<K, Held<V>>> all = held.entrySet().iterator();
      while (all.hasNext()) {
        Map.Entry<K, Held<V>> one = all.next();
        if (which.test(one.getKey())) {
          weight -= one.getValue().weight;
          all.remove();
        }
      }
    }
  }

  /** What could not be worked out is tried again by the next who asks. */
  private void drop(K key, Held<V> failed) {
    synchronized (held) {
      if (held.remove(key, failed)) {
        weight -= failed.weight;
      }
    }
  }
}
