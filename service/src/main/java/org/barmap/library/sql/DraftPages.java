package org.barmap.library.sql;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.barmap.edit.draft.Draft;
import org.barmap.library.Versioned;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.jdbi.v3.core.Handle;

/**
 * A draft in the store: the bars of its map page by page, all else in one piece. What a step leaves
 * as it was is not written again.
 */
final class DraftPages {

  private DraftPages() {}

  private record Row(Versioned<Draft> draft, boolean judgedNow) {}

  /** Loads a draft; empty when there is no such book. */
  static Optional<Versioned<Draft>> load(Handle h, String book) {
    Optional<Row> row =
        h.createQuery(
                """
                select draft_revision, draft_map, draft_settled, draft_open from book
                where id = :id and discarded_at is null
                """)
            .bind("id", book)
            .map((columns, context) -> row(h, book, columns))
            .findOne();
    row.filter(Row::judgedNow).ifPresent(r -> keepOpen(h, book, r.draft()));
    return row.map(Row::draft);
  }

  private static Row row(Handle h, String book, ResultSet row) throws SQLException {
    Optional<String> open = Optional.ofNullable(row.getString("draft_open"));
    BarMap map = read(h, book, Json.map(row.getString("draft_map")));
    Draft draft = Json.draft(map, row.getString("draft_settled"), open);
    return new Row(new Versioned<>(row.getLong("draft_revision"), draft), open.isEmpty());
  }

  /** Keeps what was worked out for a draft of an older program, so that it is worked out once. */
  private static void keepOpen(Handle h, String book, Versioned<Draft> draft) {
    h.createUpdate(
            """
            update book set draft_open = :open, doubts = :doubts
            where id = :id and draft_revision = :revision and draft_open is null
            """)
        .bind("id", book)
        .bind("revision", draft.revision())
        .bind("open", Json.write(draft.value().open()))
        .bind("doubts", draft.value().doubts())
        .execute();
  }

  /** Stores a draft as the next revision. */
  static Versioned<Draft> keep(Handle h, String book, Versioned<Draft> now, Draft draft) {
    long next = now.revision() + 1;
    write(h, book, now.value().map(), draft.map());
    h.createUpdate(
            """
            update book set draft_revision = :revision, draft_settled = :settled,
              draft_open = :open, bars = :bars, verified_pages = :verified, doubts = :doubts where id = :id
            """)
        .bind("id", book)
        .bind("revision", next)
        .bind("settled", Json.write(draft.settled()))
        .bind("open", Json.write(draft.open()))
        .bind("bars", draft.map().writtenBars())
        .bind("verified", draft.settled().verifiedPages().size())
        .bind("doubts", draft.doubts())
        .execute();
    return new Versioned<>(next, draft);
  }

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
