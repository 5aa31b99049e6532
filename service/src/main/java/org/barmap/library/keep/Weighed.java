package org.barmap.library.keep;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.ToLongFunction;
import java.util.function.UnaryOperator;

/**
 * What was used last by name, up to a weight in all, for any thread: where it is more, what was
 * used longest ago is forgotten. Everything weighs something, or a thousand light things would stay
 * for ever.
 *
 * @param <V> what is noted
 */
public final class Weighed<V> {

  private final long most;
  private final ToLongFunction<V> weight;
  private final Map<String, V> kept = new LinkedHashMap<>(16, 0.75f, true);
  private long all;

  /**
   * Makes one that holds this weight at the most, or one thing that is heavier.
   *
   * @param weight of a thing, which stays as it is; less than one counts as one
   */
  public Weighed(long most, ToLongFunction<V> weight) {
    this.most = most;
    this.weight = v -> Math.max(1, weight.applyAsLong(v));
  }

  /** Returns what is noted by a name; it is the one used last then. */
  public synchronized Optional<V> find(String name) {
    return Optional.ofNullable(kept.get(name));
  }

  /** Notes something. */
  public synchronized void note(String name, V value) {
    forget(name);
    kept.put(name, value);
    all += weight.applyAsLong(value);
    Iterator<V> eldest = kept.values().iterator();
    while (all > most && kept.size() > 1) {
      all -= weight.applyAsLong(eldest.next());
      eldest.remove();
    }
  }

  /** Notes what follows from what is noted, in one step. */
  public synchronized void change(String name, UnaryOperator<Optional<V>> next) {
    next.apply(find(name)).ifPresent(value -> note(name, value));
  }

  /** Forgets what is noted by a name, if anything is. */
  public synchronized void forget(String name) {
    Optional.ofNullable(kept.remove(name)).ifPresent(v -> all -= weight.applyAsLong(v));
  }

  /** Returns how many things are noted. */
  public synchronized int size() {
    return kept.size();
  }
}
