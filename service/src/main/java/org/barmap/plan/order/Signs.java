package org.barmap.plan.order;

import java.util.BitSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/** What was settled about signs and cuts before a number is walked through. */
final class Signs {
  private final BitSet kept = new BitSet();
  private final BitSet early = new BitSet();
  private final Map<Integer, Loop> lastTime = new HashMap<>();
  private final Set<Loop> plainAgain = new HashSet<>();
  private final Set<Loop> counted = new HashSet<>();
  private final Map<Loop, Boolean> again = new HashMap<>();

  /** The signs at the end of a piece count though that end is cut. */
  void keep(int piece) {
    kept.set(piece);
  }

  boolean kept(int piece) {
    return kept.get(piece);
  }

  /** The jump at a piece is taken the first time it is met, repeats or not. */
  void early(int piece) {
    early.set(piece);
  }

  boolean isEarly(int piece) {
    return early.get(piece);
  }

  /** A piece is cut in the last pass of a repeat only. */
  void lastTime(int piece, Loop loop) {
    lastTime.put(piece, loop);
  }

  Map<Integer, Loop> lastTime() {
    return lastTime;
  }

  /** The repeats inside a stretch are taken in its first pass only. */
  void plainAgain(Loop stretch) {
    plainAgain.add(stretch);
  }

  Set<Loop> plainAgain() {
    return plainAgain;
  }

  /** A change says how often a stretch is played. */
  void counted(Loop loop) {
    counted.add(loop);
  }

  boolean isCounted(Loop loop) {
    return counted.contains(loop);
  }

  /** A stretch is played as often again after a D.C. or D.S., or once, whatever repeats are. */
  void afterJump(Loop loop, boolean asOften) {
    again.put(loop, asOften);
  }

  boolean again(Loop loop, boolean repeats) {
    return again.getOrDefault(loop, repeats);
  }
}
