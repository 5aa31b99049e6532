package org.barmap.library.sql;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.Repaging;
import org.barmap.edit.draft.Draft;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.jdbi.v3.core.Handle;

/** Steps on a book's pages that its draft follows: further ones, others out, another order. */
record PageSteps(SqlDrafts drafts, Removal removal) {

  /** Adds a page after the first one of a picture; returns its id. */
  Optional<String> addPart(String book, String page, int part) {
    List<String> added = new ArrayList<>();
    drafts.along(
        book,
        (h, now) -> {
          List<PageCard> old = SqlPages.all(h, book);
          Optional<PageCard> first = old.stream().filter(p -> p.id().equals(page)).findFirst();
          if (first.isEmpty()) {
            return SqlPages.gone();
          }
          PageCard card = first.get();
          int behind = card.index() + part - card.part() - 1;
          Map<Integer, Integer> indices = new HashMap<>();
          for (PageCard p : old) {
            indices.put(p.index(), p.index() <= behind ? p.index() : p.index() + 1);
          }
          reposition(h, old, indices);
          Pages.NewPage further =
              new Pages.NewPage(
                  card.source(), card.picture(), card.width(), card.height(), Optional.empty());
          added.add(SqlPages.insert(h, book, behind + 1, further, part));
          return drafts.repaged(h, book, now, Repaging.apply(now.value(), indices), "Page added");
        });
    return added.stream().findFirst();
  }

  static void reposition(Handle h, List<PageCard> pages, Map<Integer, Integer> indices) {
    for (PageCard page : pages) {
      Integer index = indices.get(page.index());
      if (index != null) {
        h.createUpdate("update page set position = :position where id = :id")
            .bind("position", index)
            .bind("id", page.id())
            .execute();
      }
    }
  }

  Saved<Draft> remove(String book, long revision, String page) {
    Saved<Draft> saved =
        drafts.along(
            book,
            (h, now) -> {
              List<PageCard> old = SqlPages.all(h, book);
              Optional<PageCard> out = old.stream().filter(p -> p.id().equals(page)).findFirst();
              if (out.isEmpty()) {
                return SqlPages.gone();
              }
              if (now.revision() != revision) {
                return new Saved.Stale<>(now.revision());
              }
              List<PageCard> left = old.stream().filter(p -> !p.id().equals(page)).toList();
              h.createUpdate("delete from page where id = :id").bind("id", page).execute();
              letGo(h, book, out.get().picture());
              List<String> order = left.stream().map(PageCard::id).toList();
              return arranged(h, book, now, old, order, "Page taken out");
            });
    if (saved instanceof Saved.Done) {
      removal.pages(Set.of(page));
    }
    return saved;
  }

  Saved<Draft> removePictures(String book, long revision) {
    Set<String> pages = new HashSet<>();
    Saved<Draft> saved =
        drafts.along(
            book,
            (h, now) -> {
              if (now.revision() != revision) {
                return new Saved.Stale<>(now.revision());
              }
              if (isReading(h, book)) {
                return new Saved.Refused<>(
                    List.of("Its pages are still being read; wait until that is done"));
              }
              pages.addAll(
                  h.createQuery("select id from page where book = :book and picture <> ''")
                      .bind("book", book)
                      .mapTo(String.class)
                      .list());
              withoutPictures(h, book);
              return drafts.unchanged(now, "Pictures removed");
            });
    if (saved instanceof Saved.Done) {
      removal.pages(pages);
    }
    return saved;
  }

  private static boolean isReading(Handle h, String book) {
    return h.createQuery(
                "select count(*) from job where book = :book and state in ('waiting', 'running')")
            .bind("book", book)
            .mapTo(Integer.class)
            .one()
        > 0;
  }

  private static void withoutPictures(Handle h, String book) {
    h.createQuery("select distinct picture from page where book = :book and picture <> ''")
        .bind("book", book)
        .mapTo(String.class)
        .list()
        .forEach(picture -> Removal.doom(h, book + "/" + picture));
    h.createUpdate(
            """
            update page set finding = :finding,
              state = case state when 'read' then state else 'failed' end
            where book = :book and picture <> '' and (state <> 'read' or finding is null)
            """)
        .bind("book", book)
        .bind("finding", "Its picture was removed; its bars are as they were")
        .execute();
    h.execute("update page set picture = '' where book = ?", book);
  }

  Saved<Draft> order(String book, long revision, List<String> pages) {
    return drafts.along(
        book,
        (h, now) -> {
          List<PageCard> old = SqlPages.all(h, book);
          List<String> expected = old.stream().map(PageCard::id).sorted().toList();
          if (now.revision() != revision) {
            return new Saved.Stale<>(now.revision());
          }
          if (!pages.stream().sorted().toList().equals(expected)) {
            return new Saved.Refused<>(List.of("Name every page of the book once"));
          }
          return arranged(h, book, now, old, pages, "Pages in another order");
        });
  }

  /** Gives pages and what is in the draft of them the places of a list; others are out. */
  private Saved<Draft> arranged(
      Handle h,
      String book,
      Versioned<Draft> now,
      List<PageCard> old,
      List<String> order,
      String text) {
    Map<Integer, Integer> indices = new HashMap<>();
    for (PageCard page : old) {
      int at = order.indexOf(page.id());
      if (at >= 0) {
        indices.put(page.index(), at + 1);
      }
    }
    reposition(h, old, indices);
    return drafts.repaged(h, book, now, Repaging.apply(now.value(), indices), text);
  }

  /** Lets a picture go that a page was on, unless another one is on it, be it aside. */
  static void letGo(Handle h, String book, String picture) {
    boolean named =
        h.createQuery("select count(*) from page where book = :book and picture = :picture")
                .bind("book", book)
                .bind("picture", picture)
                .mapTo(Integer.class)
                .one()
            > 0;
    if (!picture.isEmpty() && !named) {
      Removal.doom(h, book + "/" + picture);
    }
  }
}
