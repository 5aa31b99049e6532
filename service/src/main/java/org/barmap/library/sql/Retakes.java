package org.barmap.library.sql;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.merge.Retaken;
import org.barmap.map.BarMap;
import org.barmap.map.Finding;
import org.barmap.map.Page;
import org.jdbi.v3.core.Handle;

/**
 * Pages that gave their place to a new picture. One of both is aside: not listed, but kept with its
 * picture until its step in the history can neither be taken back nor made again.
 */
final class Retakes {

  private Retakes() {}

  /**
   * What a draft says of a page besides bars and what people settled.
   *
   * @param page empty when nothing was read on it
   * @param findings of the reading, on this page
   */
  record Sheet(Optional<Page> page, List<Finding> findings) {

    Sheet {
      page = page == null ? Optional.empty() : page;
      findings = findings == null ? List.of() : List.copyOf(findings);
    }

    static Sheet of(Draft draft, int place) {
      BarMap map = draft.map();
      return new Sheet(
          map.pages().stream().filter(p -> p.index() == place).findFirst(),
          map.findings().stream().filter(f -> isOn(map, f, place)).toList());
    }

    private static boolean isOn(BarMap map, Finding f, int place) {
      return f.page().filter(p -> p == place).isPresent()
          || f.bar().flatMap(map::bar).filter(b -> b.page() == place).isPresent();
    }

    /** Lays it into a draft in place of what that says. */
    Draft into(Draft draft, int place) {
      BarMap map = draft.map();
      List<Page> pages = new ArrayList<>();
      map.pages().stream().filter(p -> p.index() < place).forEach(pages::add);
      page.ifPresent(pages::add);
      map.pages().stream().filter(p -> p.index() > place).forEach(pages::add);
      List<Finding> all = new ArrayList<>(findings);
      map.findings().stream().filter(f -> !isOn(map, f, place)).forEach(all::add);
      return draft.with(
          new BarMap(map.format(), map.book(), pages, map.numbers(), map.bars(), all));
    }
  }

  /** A page that takes the place of another one, with both as the draft has them. */
  record Retake(String oldPage, String newPage, int place, Sheet before, Sheet after) {

    /**
     * Returns how the step is called in the history.
     *
     * @param before the draft without the page of the new picture
     */
    String says(Draft before, Retaken retaken) {
      String lost =
          switch (retaken.lost()) {
            case 0 -> retaken.kept() == 0 ? "" : "; its corrections were carried over";
            case 1 -> "; 1 correction could not be carried over";
            default -> "; " + retaken.lost() + " corrections could not be carried over";
          };
      boolean unverified =
          before.settled().verifiedPages().contains(place)
              && !retaken.draft().settled().verifiedPages().contains(place);
      String again = unverified ? "; it is to be checked again" : "";
      return "New picture of page " + place + lost + again;
    }

    private static Optional<Page> unnumbered(Sheet sheet) {
      return sheet.page().map(p -> p.withFolio(Optional.empty()));
    }

    /**
     * Gives a draft the other page.
     *
     * @return empty when the page there was read again since
     */
    Optional<Draft> swapped(Draft draft, boolean back) {
      Sheet there = back ? after : before;
      // which printed numbers are believed hangs on the other pages, too
      boolean fits = unnumbered(Sheet.of(draft, place)).equals(unnumbered(there));
      return fits ? Optional.of((back ? before : after).into(draft, place)) : Optional.empty();
    }
  }

  static void insert(Handle h, String book, String id, Retake step) {
    h.createUpdate(
            """
            insert into retake (step, book, old_page, new_page, place, before, after)
            values (:step, :book, :old, :new, :place, :before, :after)
            """)
        .bind("step", id)
        .bind("book", book)
        .bind("old", step.oldPage)
        .bind("new", step.newPage)
        .bind("place", step.place)
        .bind("before", Json.write(step.before))
        .bind("after", Json.write(step.after))
        .execute();
  }

  static Optional<Retake> find(Handle h, String id) {
    return h.createQuery("select * from retake where step = :step")
        .bind("step", id)
        .mapTo(Retake.class)
        .findOne();
  }

  /** Puts one of the two pages into the place and the other one aside. */
  static void swap(Handle h, Retake step, boolean back) {
    put(h, back ? step.newPage : step.oldPage, step.place, 1);
    put(h, back ? step.oldPage : step.newPage, step.place, 0);
  }

  private static void put(Handle h, String page, int place, int aside) {
    h.createUpdate("update page set aside = :aside, position = :position where id = :id")
        .bind("aside", aside)
        .bind("position", place)
        .bind("id", page)
        .execute();
  }

  /** Takes out what is aside for good; returns the pages that are gone. */
  static List<String> dropped(Handle h, String book) {
    List<String> ids =
        h.createQuery(
                """
                select p.id from page p where p.book = :book and p.aside = 1 and not exists (
                  select 1 from retake r join correction c on c.id = r.step
                  where (r.old_page = p.id or r.new_page = p.id) and c.state in ('done', 'undone'))
                """)
            .bind("book", book)
            .mapTo(String.class)
            .list();
    for (String id : ids) {
      String picture =
          h.createQuery("delete from page where id = :id returning picture")
              .bind("id", id)
              .mapTo(String.class)
              .one();
      PageSteps.letGo(h, book, picture);
    }
    return ids;
  }
}
