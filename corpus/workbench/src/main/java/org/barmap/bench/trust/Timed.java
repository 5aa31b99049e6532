package org.barmap.bench.trust;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.ConcurrentLinkedQueue;

/** How long requests of one kind took, from any thread. */
final class Timed {

  private final ConcurrentLinkedQueue<Long> nanos = new ConcurrentLinkedQueue<>();

  void add(long nanoseconds) {
    nanos.add(nanoseconds);
  }

  /**
   * Returns their number, and the median, the 99th of a hundred and the longest in milliseconds.
   */
  Map<String, Object> told() {
    long[] all = nanos.stream().mapToLong(Long::longValue).toArray();
    Arrays.sort(all);
    Map<String, Object> told = new LinkedHashMap<>();
    told.put("requests", all.length);
    if (all.length > 0) {
      told.put("medianMillis", millis(all, 50));
      told.put("p99Millis", millis(all, 99));
      told.put("longestMillis", millis(all, 100));
    }
    return told;
  }

  private static double millis(long[] sorted, int percent) {
    int at = Math.max(0, (int) Math.ceil(sorted.length * percent / 100.0) - 1);
    return Math.round(sorted[at] / 1e5) / 10.0;
  }
}
