package org.barmap.library.keep;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;

/**
 * What was noted last by name, for any thread: of more names than it holds the one noted longest
 * ago is forgotten, so that a program that runs for months does not grow by what it once knew.
 *
 * @param <V> what is noted
 */
public final class Newest<V> {

  private final Map<String, V> kept;

  /** Makes it for so many names. */
  public Newest(int most) {
    kept =
        new LinkedHashMap<>() {
          private static final long serialVersionUID = 1;

          @Override
          protected boolean removeEldestEntry(Map.Entry<String, V> eldest) {
            return size() > most;
          }
        };
  }

  /** Returns what is noted by a name. */
  public synchronized Optional<V> find(String name) {
    return Optional.ofNullable(kept.get(name));
  }

  /** Notes something; it is the newest then. */
  public synchronized void note(String name, V value) {
    kept.remove(name);
    kept.put(name, value);
  }

  /** Notes what follows from what is noted, in one step. */
  public synchronized void change(String name, UnaryOperator<Optional<V>> next) {
    next.apply(find(name)).ifPresent(value -> note(name, value));
  }

  /** Returns the names, the newest last. */
  public synchronized List<String> names() {
    return List.copyOf(kept.keySet());
  }
}
