package org.barmap.exchange.chair;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.reckon.compare.BarPairs;

/** A musical number as two parts have it, and which of its bars are the same. */
public final class NumberPair {
  private static final int NONE = -1;

  private final WrittenNumber here;
  private final WrittenNumber there;

  /** The bar of the other part that is surely the same, by slot of this part. */
  private final int[] sure;

  /** The same where it is counted on from a mark as well. */
  private final int[] counted;

  private NumberPair(WrittenNumber here, WrittenNumber there, int[] sure, int[] counted) {
    this.here = here;
    this.there = there;
    this.sure = sure;
    this.counted = counted;
  }

  static NumberPair of(WrittenNumber here, WrittenNumber there, List<BarPairs.Pin> pins) {
    int[] sure = none(here.slots());
    int[] counted = none(here.slots());
    for (BarPairs.Pair pair : BarPairs.of(here.bars(), there.bars(), pins)) {
      counted[pair.first()] = pair.second();
      if (pair.trust() == BarPairs.Trust.SURE) {
        sure[pair.first()] = pair.second();
      }
    }
    return new NumberPair(here, there, sure, counted);
  }

  private static int[] none(int slots) {
    int[] none = new int[slots];
    Arrays.fill(none, NONE);
    return none;
  }

  /** Returns the number in this part. */
  public WrittenNumber here() {
    return here;
  }

  /** Returns the number in the other part. */
  public WrittenNumber there() {
    return there;
  }

  /** Returns the slot of the other part that is surely the same bar. */
  public Optional<Integer> there(int slot) {
    return found(sure[slot]);
  }

  /** Returns the slot of the other part that players come to who count on from a mark. */
  public Optional<Integer> counted(int slot) {
    return found(counted[slot]);
  }

  private static Optional<Integer> found(int slot) {
    return slot == NONE ? Optional.empty() : Optional.of(slot);
  }

  /** Tells whether a bar may be in the other part, but which one that is is not sure. */
  public boolean isUnsure(int slot) {
    return stretches().stream()
        .anyMatch(s -> s.how() == How.UNSURE && slot >= s.here() && slot < s.here() + s.bars());
  }

  NumberPair turned() {
    return new NumberPair(there, here, turned(sure), turned(counted));
  }

  private int[] turned(int[] pairs) {
    int[] turned = none(there.slots());
    for (int i = 0; i < pairs.length; i++) {
      if (pairs[i] != NONE) {
        turned[pairs[i]] = i;
      }
    }
    return turned;
  }

  /** How a stretch of bars stands in the two parts. */
  public enum How {
    /** The same bars, called the same. */
    SAME,
    /** The same bars, called otherwise. */
    OTHERWISE,
    /** The parts don't have as many bars between two places both have: which are which is open. */
    UNSURE,
    /** Bars only this part has. */
    ONLY_HERE,
    /** Bars only the other part has. */
    ONLY_THERE
  }

  /**
   * Bars that stand alike in the two parts.
   *
   * @param how they stand
   * @param here first slot in this part
   * @param there first slot in the other part
   * @param bars how many in this part
   * @param otherBars how many in the other part
   */
  public record Stretch(How how, int here, int there, int bars, int otherBars) {}

  /** Returns the whole number as stretches, in order. */
  public List<Stretch> stretches() {
    List<Stretch> out = new ArrayList<>();
    int i = 0;
    int j = 0;
    while (i < sure.length || j < there.slots()) {
      int next = i;
      while (next < sure.length && sure[next] == NONE) {
        next++;
      }
      int nextThere = next < sure.length ? sure[next] : there.slots();
      if (next > i || nextThere > j) {
        out.add(new Stretch(open(next - i, nextThere - j), i, j, next - i, nextThere - j));
        i = next;
        j = nextThere;
      } else {
        int bars = alike(i);
        out.add(new Stretch(how(i), i, j, bars, bars));
        i += bars;
        j += bars;
      }
    }
    return out;
  }

  private static How open(int bars, int otherBars) {
    if (otherBars == 0) {
      return How.ONLY_HERE;
    }
    return bars == 0 ? How.ONLY_THERE : How.UNSURE;
  }

  private How how(int i) {
    return here.nameAt(i).equals(there.nameAt(sure[i])) ? How.SAME : How.OTHERWISE;
  }

  /** How many bars from here on stand in the same way, called by numbers equally far apart. */
  private int alike(int i) {
    int bars = 1;
    Optional<Integer> apart = apart(i);
    while (apart.isPresent()
        && i + bars < sure.length
        && sure[i + bars] == sure[i] + bars
        && apart(i + bars).equals(apart)) {
      bars++;
    }
    return bars;
  }

  private Optional<Integer> apart(int i) {
    Optional<Integer> mine = figure(here.nameAt(i));
    Optional<Integer> other = figure(there.nameAt(sure[i]));
    return mine.flatMap(m -> other.map(o -> o - m));
  }

  private static Optional<Integer> figure(String name) {
    return name.matches("\\d{1,6}") ? Optional.of(Integer.valueOf(name)) : Optional.empty();
  }
}
