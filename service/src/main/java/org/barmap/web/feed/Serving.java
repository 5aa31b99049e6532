package org.barmap.web.feed;

import io.javalin.http.Context;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.barmap.edit.draft.Draft;
import org.barmap.exchange.region.Served;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.barmap.map.Page;
import org.barmap.map.StaffSystem;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;

/**
 * A book as a request found it.
 *
 * @param map as it stands
 * @param revision of the map
 * @param served where its pages are, as the request called the service
 */
record Serving(BarMap map, long revision, Served served) {

  /** Looks up the book a request names. */
  static Serving of(Library library, Guard guard, Context ctx) {
    BookCard book = Requests.book(library, ctx);
    Versioned<Draft> draft = Requests.draft(library, ctx);
    BarMap map = draft.value().map();
    Map<Integer, List<StaffSystem>> systems = new HashMap<>();
    for (Page page : map.pages()) {
      systems.putIfAbsent(page.index(), page.systems());
    }
    List<Served.Leaf> leaves =
        library.pages().all(book.id()).stream()
            .map(p -> leaf(p, systems.getOrDefault(p.index(), List.of())))
            .toList();
    String address = guard.address(ctx) + "/api/books/" + book.id();
    return new Serving(
        map, draft.revision(), new Served(address, book.title(), book.part(), leaves));
  }

  private static Served.Leaf leaf(PageCard page, List<StaffSystem> systems) {
    return new Served.Leaf(
        page.id(), page.index(), page.width(), page.height(), !page.picture().isEmpty(), systems);
  }
}
