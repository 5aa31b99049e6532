package org.barmap.plan.reference;

import java.util.List;

/**
 * A stretch that is played more than once.
 *
 * @param from its first bar
 * @param bodyTo the last bar before its endings, or its last bar
 * @param endings in the order of the page; empty for none
 * @param times how often it is played in all
 * @param kind who asks for it
 */
record Repeat(int from, int bodyTo, List<Ending> endings, int times, Kind kind) {

  /**
   * Printed; printed, and a change says how often; printed and open (played once in the order, as
   * it is left on cue); a change.
   */
  enum Kind {
    PRINTED,
    COUNTED,
    OPEN,
    PLAY_ONCE_AFTER_JUMP,
    PLAY_AGAIN_AFTER_JUMP
  }

  /** The bars under one bracket. */
  record Ending(int from, int to, List<Integer> passes, boolean back) {}

  /**
   * A vamp or a safety: "vamp" or "safety", from its first to its last bar, counted in the number.
   */
  record Open(String kind, int from, int to) {}

  int to() {
    return endings.isEmpty() ? bodyTo : endings.get(endings.size() - 1).to();
  }

  boolean holds(int at) {
    return at >= from && at <= to();
  }

  /** 0 for the body, 1 for the first bracket, -1 for outside. */
  int block(int at) {
    if (at < from || at > to()) {
      return -1;
    }
    for (int k = 0; k < endings.size(); k++) {
      if (at >= endings.get(k).from() && at <= endings.get(k).to()) {
        return k + 1;
      }
    }
    return 0;
  }

  /** Whether a way back of it stands behind the end of a bar of it, up to another. */
  boolean closesBetween(int behind, int to) {
    boolean closes = false;
    for (int at = behind + 1; at <= to; at++) {
      closes |= closesAt(at);
    }
    return times > 1 && holds(behind) && closes;
  }

  /** Whether a backward repeat of it stands at the end of a bar. */
  boolean closesAt(int at) {
    if (endings.isEmpty()) {
      return at == bodyTo;
    }
    return endings.stream().anyMatch(e -> e.to() == at && e.back());
  }

  /** The bracket of a pass, or -1 when the bars behind the brackets are its ending. */
  int endingOf(int pass) {
    for (int k = 0; k < endings.size(); k++) {
      if (endings.get(k).passes().contains(pass)) {
        return k;
      }
    }
    return -1;
  }

  /** The number of its last pass; with endings the one that plays the last of them. */
  int lastPass() {
    if (endings.isEmpty()) {
      return times;
    }
    Ending last = endings.get(endings.size() - 1);
    int counted = last.passes().get(last.passes().size() - 1);
    return endings.size() == 1 ? counted + 1 : counted;
  }

  /** A vamp that is left behind one of its bars the last time round. */
  static Repeat leftBehind(int from, int out, int to) {
    return new Repeat(from, out, List.of(new Ending(out + 1, to, List.of(1), true)), 2, Kind.OPEN);
  }

  Repeat times(int other) {
    return new Repeat(from, bodyTo, endings, other, kind);
  }

  Repeat open() {
    return new Repeat(from, bodyTo, endings, 1, Kind.OPEN);
  }

  Repeat kind(Kind other) {
    return new Repeat(from, bodyTo, endings, times, other);
  }

  boolean plain(int first, int last) {
    return endings.isEmpty() && from == first && bodyTo == last;
  }
}
