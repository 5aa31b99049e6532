package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ShowChanges;
import org.barmap.web.api.Requests;
import org.barmap.web.planned.Planning;

/** The plan and the road map. */
public record PlanRoutes(Library library, Planning planning) {

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/plan", this::plan);
    routes.get("/api/books/{b}/roadmap", this::roadmap);
  }

  private void plan(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    BarMap map = Requests.draft(library, ctx).value().map();
    boolean without = "changes".equals(ctx.queryParam("without"));
    ShowChanges changes = without ? ShowChanges.none() : planning.changes(book);
    planning.sendPlan(ctx, book, map, changes);
  }

  private void roadmap(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    planning.sendRoad(ctx, book, Requests.draft(library, ctx));
  }
}
