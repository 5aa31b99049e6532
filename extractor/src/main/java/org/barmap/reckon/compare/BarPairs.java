package org.barmap.reckon.compare;

import java.util.ArrayList;
import java.util.List;
import org.barmap.map.Bar;
import org.barmap.reckon.compare.NumberComparison.Single;

/**
 * Which single bars of a musical number are the same bar in two parts of one show.
 *
 * <p>Both are counted from what both have: where a number begins and ends, a rehearsal mark, a
 * segno or coda, or a place a person named. Between two such places bars are surely the same only
 * where both parts have as many of them (common practice: "four after B" is said so that all find
 * it); where they don't, nothing is said: of pairs that an alignment by meters and repeats made
 * there half were wrong, in parts made from one show.
 */
public final class BarPairs {

  /**
   * A place a person named: the two bars are the same.
   *
   * @param first single bar of the first part, from 0
   * @param second single bar of the second part, from 0
   */
  public record Pin(int first, int second) {}

  /**
   * The same bar in both parts.
   *
   * @param first single bar of the first part, from 0
   * @param second single bar of the second part, from 0
   * @param trust how sure that is
   */
  public record Pair(int first, int second, Trust trust) {}

  /** How sure it is that two bars are the same. */
  public enum Trust {
    /** It follows from places both have before and behind it. */
    SURE,
    /**
     * It is counted on from the last place both have, as players do; the parts don't have as many
     * bars from there to their ends.
     */
    COUNTED
  }

  private final List<Single> a;
  private final List<Single> b;
  private final List<Pair> out = new ArrayList<>();

  /** Whether a named place was met, from which bars are counted on. */
  private boolean marked;

  private BarPairs(List<Bar> first, List<Bar> second) {
    a = singles(first);
    b = singles(second);
  }

  /**
   * Pairs the bars of a number.
   *
   * @param first its entries in the first part
   * @param second its entries in the second part
   * @param pins in order, each later in both parts than the one before; others are left out
   * @return in order; a bar without a partner is in none
   */
  public static List<Pair> of(List<Bar> first, List<Bar> second, List<Pin> pins) {
    BarPairs pairs = new BarPairs(first, second);
    pairs.run(pins);
    return List.copyOf(pairs.out);
  }

  private static List<Single> singles(List<Bar> bars) {
    List<Single> singles = new ArrayList<>();
    for (Bar bar : bars) {
      for (int i = 0; i < bar.count(); i++) {
        singles.add(new Single(bar, i, bar.confidence()));
      }
    }
    return singles;
  }

  private void run(List<Pin> pins) {
    int i = pickups(a);
    int j = pickups(b);
    int both = Math.min(i, j);
    for (int k = both; k > 0; k--) {
      out.add(new Pair(i - k, j - k, Trust.SURE));
    }
    for (Pin pin : pins) {
      boolean later = pin.first() >= i && pin.second() >= j;
      if (later && pin.first() < a.size() && pin.second() < b.size()) {
        between(i, j, pin.first(), pin.second(), false);
        out.add(new Pair(pin.first(), pin.second(), Trust.SURE));
        i = pin.first() + 1;
        j = pin.second() + 1;
        marked = true;
      }
    }
    between(i, j, a.size(), b.size(), true);
  }

  /** A pickup in one of the parts only moves no bar. */
  private static int pickups(List<Single> part) {
    int bars = 0;
    while (bars < part.size() && part.get(bars).bar().number() == 0) {
      bars++;
    }
    return bars;
  }

  /** Bars from {@code i} and {@code j} on, up to {@code iEnd} and {@code jEnd}, without them. */
  private void between(int i, int j, int iEnd, int jEnd, boolean last) {
    for (Pin place : Named.of(a, b, new Pin(i, j), new Pin(iEnd, jEnd))) {
      stretch(i, j, place.first(), place.second(), false);
      out.add(new Pair(place.first(), place.second(), Trust.SURE));
      marked = true;
      i = place.first() + 1;
      j = place.second() + 1;
    }
    stretch(i, j, iEnd, jEnd, last);
  }

  /** Bars between two places both have. */
  private void stretch(int i, int j, int iEnd, int jEnd, boolean last) {
    boolean equal = iEnd - i == jEnd - j;
    if (equal || (last && marked)) {
      // behind the last place both have the count goes on
      for (int k = 0; i + k < iEnd && j + k < jEnd; k++) {
        out.add(new Pair(i + k, j + k, equal ? Trust.SURE : Trust.COUNTED));
      }
    }
  }
}
