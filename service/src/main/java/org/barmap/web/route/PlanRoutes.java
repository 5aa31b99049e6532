package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.BarMap;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.web.api.Requests;

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
    ctx.json(PlanJson.tree(planning.plan(book, map, changes)));
  }

  private void roadmap(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    BarMap map = Requests.draft(library, ctx).value().map();
    Plan written = planning.plan(book, map, ShowChanges.none());
    ShowChanges changes = planning.changes(book);
    ctx.json(RoadMap.of(map, written, planning.plan(book, map, changes), changes));
  }
}
