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
  private final int[] toThere;
  private final int[] toHere;

  /** By slot of this part; nothing said where it has no partner. */
  private final BarPairs.Trust[] trust;

  private NumberPair(
      WrittenNumber here,
      WrittenNumber there,
      int[] toThere,
      int[] toHere,
      BarPairs.Trust[] trust) {
    this.here = here;
    this.there = there;
    this.toThere = toThere;
    this.toHere = toHere;
    this.trust = trust;
  }

  static NumberPair of(WrittenNumber here, WrittenNumber there, List<BarPairs.Pin> pins) {
    int[] toThere = new int[here.slots()];
    int[] toHere = new int[there.slots()];
    Arrays.fill(toThere, NONE);
    Arrays.fill(toHere, NONE);
    BarPairs.Trust[] trust = new BarPairs.Trust[here.slots()];
    Arrays.fill(trust, BarPairs.Trust.LIKELY);
    for (BarPairs.Pair pair : BarPairs.of(here.bars(), there.bars(), pins)) {
      toThere[pair.first()] = pair.second();
      toHere[pair.second()] = pair.first();
      trust[pair.first()] = pair.trust();
    }
    return new NumberPair(here, there, toThere, toHere, trust);
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
    return trust[slot] == BarPairs.Trust.SURE ? Optional.of(toThere[slot]) : Optional.empty();
  }

  /** Returns the slot of the other part that players come to who count on from a mark. */
  public Optional<Integer> counted(int slot) {
    return trust[slot] == BarPairs.Trust.LIKELY ? Optional.empty() : Optional.of(toThere[slot]);
  }

  /** Tells whether a bar has a partner, but not surely. */
  public boolean isUnsure(int slot) {
    return toThere[slot] != NONE && trust[slot] != BarPairs.Trust.SURE;
  }

  NumberPair turned() {
    BarPairs.Trust[] turned = new BarPairs.Trust[there.slots()];
    for (int j = 0; j < turned.length; j++) {
      turned[j] = toHere[j] == NONE ? BarPairs.Trust.LIKELY : trust[toHere[j]];
    }
    return new NumberPair(there, here, toHere, toThere, turned);
  }

  /** How a stretch of bars stands in the two parts. */
  public enum How {
    /** The same bars, called the same. */
    SAME,
    /** The same bars, called otherwise. */
    OTHERWISE,
    /** Likely the same bars; the parts don't have as many between two places both have. */
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
   * @param here first slot in this part; where it has none of them, the one after them
   * @param there first slot in the other part, likewise
   * @param bars how many
   */
  public record Stretch(How how, int here, int there, int bars) {}

  /** Returns the whole number as stretches, in order. */
  public List<Stretch> stretches() {
    List<Stretch> out = new ArrayList<>();
    int i = 0;
    int j = 0;
    while (i < toThere.length || j < toHere.length) {
      int start = i;
      int startThere = j;
      if (i < toThere.length && toThere[i] == NONE) {
        while (i < toThere.length && toThere[i] == NONE) {
          i++;
        }
        out.add(new Stretch(How.ONLY_HERE, start, j, i - start));
      } else if (j < toHere.length && toHere[j] == NONE) {
        while (j < toHere.length && toHere[j] == NONE) {
          j++;
        }
        out.add(new Stretch(How.ONLY_THERE, i, startThere, j - startThere));
      } else {
        int bars = alike(i, j);
        out.add(new Stretch(how(i, j), i, j, bars));
        i += bars;
        j += bars;
      }
    }
    return out;
  }

  private How how(int i, int j) {
    if (trust[i] != BarPairs.Trust.SURE) {
      return How.UNSURE;
    }
    return here.nameAt(i).equals(there.nameAt(j)) ? How.SAME : How.OTHERWISE;
  }

  /** How many bars from here on stand in the same way, called by numbers equally far apart. */
  private int alike(int i, int j) {
    int bars = 1;
    How how = how(i, j);
    Optional<Integer> apart = apart(i, j);
    while (i + bars < toThere.length
        && toThere[i + bars] == j + bars
        && how(i + bars, j + bars) == how
        && apart.isPresent()
        && apart(i + bars, j + bars).equals(apart)) {
      bars++;
    }
    return bars;
  }

  private Optional<Integer> apart(int i, int j) {
    Optional<Integer> mine = figure(here.nameAt(i));
    Optional<Integer> other = figure(there.nameAt(j));
    return mine.flatMap(m -> other.map(o -> o - m));
  }

  private static Optional<Integer> figure(String name) {
    return name.matches("\\d{1,6}") ? Optional.of(Integer.valueOf(name)) : Optional.empty();
  }
}
