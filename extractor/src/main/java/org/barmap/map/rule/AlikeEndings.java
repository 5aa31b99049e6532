package org.barmap.map.rule;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;

/**
 * Endings that are numbered like the ones before them, so that bar numbers occur twice.
 *
 * <p>Most editions count straight through first and second endings, some number the second like the
 * first (common practice). A map says so by its numbers alone: the first bar of a later ending has
 * the number of the first bar of an earlier one.
 */
public final class AlikeEndings {

  /** An ending is at most this many entries long. */
  private static final int LONGEST = 40;

  private final Map<Integer, Integer> earlier = new LinkedHashMap<>();
  private final Map<String, String> within = new HashMap<>();

  private AlikeEndings(List<Bar> bars, Set<String> starts) {
    int last = 0;
    for (int i = 1; i < bars.size(); i++) {
      if (begins(bars, i) && bars.get(i).number() < bars.get(i - 1).nextNumber()) {
        Optional<Integer> from = earlier(bars, i, Math.max(last, i - LONGEST), starts);
        if (from.isPresent()) {
          earlier.put(i, from.get());
          last = i;
          name(bars, from.get(), i);
          name(bars, i, i + LONGEST);
        }
      }
    }
  }

  /** Finds those of a book. */
  public static AlikeEndings of(BarMap map) {
    Set<String> starts = new HashSet<>();
    map.numbers().forEach(n -> n.firstBar().ifPresent(starts::add));
    return new AlikeEndings(map.bars(), starts);
  }

  /** Finds those of one musical number. */
  public static AlikeEndings of(List<Bar> bars) {
    return new AlikeEndings(bars, Set.of());
  }

  /** Tells whether an ending begins with an entry. */
  private static boolean begins(List<Bar> bars, int i) {
    List<Integer> own = bars.get(i).ending();
    return !own.isEmpty() && (i == 0 || !own.equals(bars.get(i - 1).ending()));
  }

  private static Optional<Integer> earlier(List<Bar> bars, int i, int least, Set<String> starts) {
    for (int k = i - 1; k >= least && !starts.contains(bars.get(k + 1).id()); k--) {
      if (begins(bars, k) && bars.get(k).number() == bars.get(i).number()) {
        return Optional.of(k);
      }
    }
    return Optional.empty();
  }

  private void name(List<Bar> bars, int from, int end) {
    List<Integer> ending = bars.get(from).ending();
    List<String> said = new ArrayList<>();
    ending.forEach(n -> said.add(ordinal(n)));
    for (int i = from; i < Math.min(end, bars.size()); i++) {
      if (!bars.get(i).ending().equals(ending)) {
        break;
      }
      within.put(bars.get(i).id(), String.join(" and ", said) + " ending");
    }
  }

  private static String ordinal(int n) {
    boolean teen = n % 100 >= 11 && n % 100 <= 13;
    return n
        + (teen || n % 10 > 3 || n % 10 == 0 ? "th" : List.of("st", "nd", "rd").get(n % 10 - 1));
  }

  /**
   * Returns by the index of each later ending's first entry that of the earlier one, in reading
   * order; stretches between the two never overlap.
   */
  public Map<Integer, Integer> earlier() {
    return Collections.unmodifiableMap(earlier);
  }

  /** Returns which ending an entry lies in where that has to be said, "2nd ending". */
  public Optional<String> within(String bar) {
    return Optional.ofNullable(within.get(bar));
  }

  /** Returns what a bar is called, with its ending where that has to be said. */
  public String called(Bar bar, String name) {
    return within(bar.id()).map(e -> name + " in the " + e).orElse(name);
  }
}
