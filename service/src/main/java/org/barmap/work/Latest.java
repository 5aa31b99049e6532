package org.barmap.work;

import java.util.LinkedHashMap;
import java.util.Map;

/** What is kept of the latest so many keys; the others are forgotten. For one thread at a time. */
public final class Latest<V> extends LinkedHashMap<String, V> {

  private static final long serialVersionUID = 1L;

  private final int most;

  /** Keeps so many. */
  public Latest(int most) {
    this.most = most;
  }

  @Override
  protected boolean removeEldestEntry(Map.Entry<String, V> eldest) {
    return size() > most;
  }
}
