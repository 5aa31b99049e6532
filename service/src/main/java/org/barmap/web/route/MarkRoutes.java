package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.mark.PencilMark;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.work.Events;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The marks that stand in a book in pencil: ticked as written, until they are ticked as erased.
 * They stay when the change goes that they were written for.
 */
public record MarkRoutes(Library library, Events events) {

  private static final int MOST_LETTERS = 200;
  private static final int MOST_MARKS = 5000;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/marks", this::written);
    routes.post("/api/books/{b}/marks", this::tick);
  }

  private void written(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    ctx.json(Map.of("written", written(library, book.id())));
  }

  private void tick(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    ObjectNode body = Requests.body(ctx);
    if (!body.path("written").isBoolean() || !(body.path("mark") instanceof ObjectNode mark)) {
      throw new ApiException(ApiError.BAD_REQUEST, "Say which mark, and whether it is written");
    }
    ObjectNode kept = BarMapJson.mapper().createObjectNode();
    for (String key : List.of("page", "system")) {
      kept.put(key, mark.path(key).asInt(0));
    }
    for (String key : List.of("bar", "mark", "sign", "number", "where")) {
      kept.put(key, Requests.text(mark, key, MOST_LETTERS));
    }
    if (kept.path("bar").asString("").isEmpty() || kept.path("mark").asString("").isEmpty()) {
      throw new ApiException(ApiError.BAD_REQUEST, "A mark stands at a bar");
    }
    boolean written = body.path("written").asBoolean();
    if (written && library.changes().written(book.id()).size() >= MOST_MARKS) {
      throw new ApiException(ApiError.REFUSED, "There are " + MOST_MARKS + " marks already");
    }
    library.changes().tick(book.id(), kept, written);
    events.tell(book.id(), "marks", Map.of());
    ctx.json(Map.of("written", written(library, book.id())));
  }

  /** Returns what is to be erased, page by page. */
  static List<PencilMark> written(Library library, String book) {
    return library.changes().written(book).stream()
        .map(MarkRoutes::mark)
        .sorted(Comparator.comparingInt(PencilMark::page).thenComparingInt(PencilMark::system))
        .toList();
  }

  private static PencilMark mark(JsonNode m) {
    return new PencilMark(
        m.path("page").asInt(0),
        m.path("system").asInt(0),
        m.path("bar").asString(""),
        m.path("mark").asString(""),
        m.path("sign").asString(""),
        m.path("number").asString(""),
        m.path("where").asString(""),
        Optional.empty(),
        List.of());
  }
}
