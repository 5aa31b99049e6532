package org.barmap.score;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Pairs things of two lists, best pair first. */
final class Pairing {
  private record Candidate(double cost, int left, int right) {}

  private final List<Candidate> candidates = new ArrayList<>();

  void offer(double cost, int left, int right) {
    candidates.add(new Candidate(cost, left, right));
  }

  /** Returns left index to right index, in the order the pairs were made. */
  Map<Integer, Integer> pairs() {
    candidates.sort(Comparator.comparingDouble(Candidate::cost));
    Map<Integer, Integer> pairs = new LinkedHashMap<>();
    Set<Integer> used = new HashSet<>();
    for (Candidate c : candidates) {
      if (!pairs.containsKey(c.left) && used.add(c.right)) {
        pairs.put(c.left, c.right);
      }
    }
    return pairs;
  }

  /** Returns the cost a pair was offered at. */
  double cost(int left, int right) {
    return candidates.stream()
        .filter(c -> c.left == left && c.right == right)
        .mapToDouble(Candidate::cost)
        .findFirst()
        .orElseThrow();
  }
}
