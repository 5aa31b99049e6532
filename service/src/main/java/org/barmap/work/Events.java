package org.barmap.work;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicLong;

/** Tells whoever listens what happens to a book. */
public final class Events {

  private final Map<Long, Subscription> listeners = new ConcurrentHashMap<>();
  private final AtomicLong next = new AtomicLong();

  /** Makes a hub nobody listens to yet. */
  public Events() {}

  /** Hears what happens to one book. */
  @FunctionalInterface
  public interface Listener {

    /**
     * Takes an event.
     *
     * @param name job, page, map or plan
     * @param data to be sent as JSON
     */
    void hear(String name, Object data);
  }

  private record Subscription(String book, Listener listener) {}

  /** Listens to a book until the returned handle is run. */
  public Runnable listen(String book, Listener listener) {
    long id = next.incrementAndGet();
    listeners.put(id, new Subscription(book, listener));
    return () -> listeners.remove(id);
  }

  /** Tells the listeners of a book. */
  public void tell(String book, String name, Object data) {
    for (Subscription s : listeners.values()) {
      if (s.book.equals(book)) {
        s.listener.hear(name, data);
      }
    }
  }

  /** Tells that the map of a book is of a new revision. */
  public void mapChanged(String book, long revision) {
    tell(book, "map", Map.of("revision", revision));
  }

  /** Returns how many listen. */
  public int listening() {
    return listeners.size();
  }
}
