package org.barmap.bench.trust;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** What happened how often, from any thread; and what should not have happened, in words. */
final class Tally {

  private static final int KEPT = 20;

  private final Map<String, Long> counts = new TreeMap<>();
  private final List<String> wrong = new ArrayList<>();

  synchronized void count(String what) {
    counts.merge(what, 1L, Long::sum);
  }

  synchronized void wrong(String kind, String what) {
    counts.merge(kind, 1L, Long::sum);
    if (wrong.size() < KEPT) {
      wrong.add(kind + ": " + what);
    }
  }

  synchronized long of(String what) {
    return counts.getOrDefault(what, 0L);
  }

  synchronized Map<String, Long> counts() {
    return new TreeMap<>(counts);
  }

  synchronized List<String> wrong() {
    return List.copyOf(wrong);
  }
}
