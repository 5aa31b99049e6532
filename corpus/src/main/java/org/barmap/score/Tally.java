package org.barmap.score;

import java.util.Map;
import java.util.TreeMap;

/** Plain counts of one comparison, additive over files. */
public final class Tally {
  /** Number of calibration bins over confidence 0 to 1. */
  public static final int BINS = 10;

  private final Map<String, Long> counts = new TreeMap<>();

  /** An entry's confidence and whether the entry was right. */
  public record Judged(double confidence, boolean right) {}

  private final java.util.List<Judged> judged = new java.util.ArrayList<>();
  private final long[] binN = new long[BINS];
  private final double[] binConfidence = new double[BINS];
  private final long[] binRight = new long[BINS];

  void add(String key, long n) {
    counts.merge(key, n, Long::sum);
  }

  void add(String key, boolean yes) {
    add(key, yes ? 1 : 0);
  }

  void bin(double confidence, boolean right) {
    judged.add(new Judged(confidence, right));
    double c = Math.min(1, Math.max(0, confidence));
    int k = Math.min(BINS - 1, (int) (c * BINS));
    binN[k]++;
    binConfidence[k] += c;
    binRight[k] += right ? 1 : 0;
  }

  /** Adds another tally to this one. */
  public void merge(Tally other) {
    judged.addAll(other.judged);
    other.counts.forEach(this::add);
    for (int k = 0; k < BINS; k++) {
      binN[k] += other.binN[k];
      binConfidence[k] += other.binConfidence[k];
      binRight[k] += other.binRight[k];
    }
  }

  /** Returns a count, 0 where nothing was counted. */
  public long get(String key) {
    return counts.getOrDefault(key, 0L);
  }

  /** Returns all counts by name. */
  public Map<String, Long> counts() {
    return Map.copyOf(counts);
  }

  /** Returns every entry with a confidence, whether it was right. */
  public java.util.List<Judged> judged() {
    return java.util.List.copyOf(judged);
  }

  /** Returns entries given a confidence in bin k. */
  public long binN(int k) {
    return binN[k];
  }

  /** Returns the sum of the confidences in bin k. */
  public double binConfidence(int k) {
    return binConfidence[k];
  }

  /** Returns how many entries of bin k were right. */
  public long binRight(int k) {
    return binRight[k];
  }
}
