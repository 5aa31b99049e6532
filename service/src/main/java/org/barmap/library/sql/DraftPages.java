package org.barmap.library.sql;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.jdbi.v3.core.Handle;

/**
 * A draft's map in the store: its bars page by page, all else in one piece. What a step leaves as
 * it was is not written again.
 */
final class DraftPages {

  private DraftPages() {}

  /**
   * Takes a map out.
   *
   * @param rest the map as the book has it; with its bars where an older program wrote it
   */
  static BarMap read(Handle h, String book, BarMap rest) {
    List<Bar> bars = new ArrayList<>(rest.bars());
    h.createQuery("select bars from draft_page where book = :book order by page")
        .bind("book", book)
        .mapTo(String.class)
        .forEach(page -> bars.addAll(Json.bars(page)));
    return rest.withBars(bars);
  }

  /**
   * Puts a map in.
   *
   * @param before the map that is there
   */
  static void write(Handle h, String book, BarMap before, BarMap now) {
    Set<Integer> there =
        new HashSet<>(
            h.createQuery("select page from draft_page where book = :book")
                .bind("book", book)
                .mapTo(Integer.class)
                .list());
    Map<Integer, List<Bar>> old = byPage(before);
    Map<Integer, List<Bar>> pages = byPage(now);
    boolean whole = !inOrder(now);
    boolean kept = !there.isEmpty() && !whole && bare(before).equals(bare(now));
    if (!kept) {
      h.createUpdate("update book set draft_map = :map where id = :id")
          .bind("id", book)
          .bind("map", Json.write(whole ? now : bare(now)))
          .execute();
    }
    for (Map.Entry<Integer, List<Bar>> page : pages.entrySet()) {
      boolean same =
          there.contains(page.getKey()) && page.getValue().equals(old.get(page.getKey()));
      if (!whole && !same) {
        h.createUpdate(
                "insert into draft_page (book, page, bars) values (:book, :page, :bars)"
                    + " on conflict (book, page) do update set bars = excluded.bars")
            .bind("book", book)
            .bind("page", page.getKey())
            .bind("bars", Json.write(page.getValue()))
            .execute();
      }
    }
    there.removeIf(p -> !whole && pages.containsKey(p));
    for (int gone : there) {
      h.execute("delete from draft_page where book = ? and page = ?", book, gone);
    }
  }

  private static BarMap bare(BarMap map) {
    return map.withBars(List.of());
  }

  private static Map<Integer, List<Bar>> byPage(BarMap map) {
    Map<Integer, List<Bar>> pages = new TreeMap<>();
    map.bars().forEach(b -> pages.computeIfAbsent(b.page(), p -> new ArrayList<>()).add(b));
    return pages;
  }

  /** Reading order goes from page to page; a map in which it doesn't is kept in one piece. */
  private static boolean inOrder(BarMap map) {
    int page = 0;
    for (Bar bar : map.bars()) {
      if (bar.page() < page) {
        return false;
      }
      page = bar.page();
    }
    return true;
  }
}
