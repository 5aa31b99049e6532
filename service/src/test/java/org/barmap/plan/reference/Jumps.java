package org.barmap.plan.reference;

import java.util.List;

/**
 * What leads elsewhere in a number; -1 for a sign that is not there.
 *
 * @param jumps D.C. and D.S., each taken once
 * @param toCoda the bar at whose end the coda is gone to, after a jump
 * @param coda the bar it leads to
 * @param fine the bar at whose end the number ends, after a jump
 * @param withRepeats repeats are taken again after a jump
 */
record Jumps(List<Jump> jumps, int toCoda, int coda, int fine, boolean withRepeats) {

  static final Jumps NONE = new Jumps(List.of(), -1, -1, -1, false);

  /**
   * A D.C. or D.S. at the end of a bar.
   *
   * @param dalSegno goes to the segno
   * @param early taken the first time it is met, though a repeat is not done
   */
  record Jump(int at, int target, boolean dalSegno, boolean early) {}

  boolean isEmpty() {
    return jumps.isEmpty();
  }

  /** Whether a bar sounds again after a jump, before anything new comes. */
  boolean replays(int at) {
    return jumps.stream().anyMatch(j -> at >= j.target() && at <= j.at());
  }

  /** Whether a bar outside all repeats sounds before and after the only jump there is. */
  boolean twice(int at) {
    return jumps.size() == 1 && again(at);
  }

  /** Whether a bar comes again after a jump, before its Fine or its To Coda. */
  boolean again(int at) {
    boolean fines = fine < 0 || toCoda >= 0 || at <= fine;
    return replays(at) && fines && (toCoda < 0 || at <= toCoda);
  }

  /** Whether a bar outside all repeats sounds after the only jump there is, and not before. */
  boolean onlyAfter(int at) {
    return jumps.size() == 1 && at > jumps.get(0).at() && (toCoda < 0 || at >= coda);
  }

  /** Whether the end of a bar carries a sign that counts. */
  boolean signAtEnd(int at) {
    return !isEmpty() && (at == toCoda || at == fine || jumps.stream().anyMatch(j -> j.at() == at));
  }

  /** Whether a sign that counts stands at the end of a bar behind one, up to another. */
  boolean signBetween(int behind, int to) {
    for (int at = behind + 1; at <= to; at++) {
      if (signAtEnd(at)) {
        return true;
      }
    }
    return false;
  }

  /** Whether the beginning of a bar is where a sign leads to; the beginning of all is no sign. */
  boolean signAtStart(int at) {
    return !isEmpty()
        && (at == coda || jumps.stream().anyMatch(j -> j.dalSegno() && j.target() == at));
  }
}
