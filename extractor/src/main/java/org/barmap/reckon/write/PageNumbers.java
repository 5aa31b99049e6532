package org.barmap.reckon.write;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.barmap.sign.ReadPage;

/**
 * Which of the page numbers that were seen are believed. A wrong one puts every page on the wrong
 * side, so one alone is not: it needs another page from which it is counted on by one a page, and
 * more pages must agree with it than with any other count.
 */
public final class PageNumbers {
  private PageNumbers() {}

  /** Returns the believed numbers by the index of their page. */
  public static Map<Integer, Integer> believed(List<ReadPage> pages) {
    Map<Integer, Integer> agreeing = new HashMap<>();
    pages.forEach(p -> ahead(p).ifPresent(a -> agreeing.merge(a, 1, Integer::sum)));
    int most = agreeing.values().stream().mapToInt(n -> n).max().orElse(0);
    List<Integer> counts =
        agreeing.entrySet().stream()
            .filter(e -> e.getValue() == most)
            .map(Map.Entry::getKey)
            .toList();
    Map<Integer, Integer> believed = new HashMap<>();
    if (most > 1 && counts.size() == 1) {
      int count = counts.get(0);
      for (ReadPage page : pages) {
        if (ahead(page).equals(OptionalInt.of(count))) {
          believed.put(page.index(), page.index() + count);
        }
      }
    }
    return believed;
  }

  /** How far the printed number is ahead of the page's place. */
  private static OptionalInt ahead(ReadPage page) {
    return page.folio().isEmpty()
        ? OptionalInt.empty()
        : OptionalInt.of(page.folio().get().number() - page.index());
  }
}
