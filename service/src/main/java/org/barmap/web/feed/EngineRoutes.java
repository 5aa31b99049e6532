package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.LinkedHashMap;
import java.util.Map;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.work.engine.EngineJobs;

/** Other readers of music as second readers of a book; those that the service was started with. */
public record EngineRoutes(Library library, EngineJobs engines) {

  private static final int MOST_LETTERS = 100;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/engines", this::show);
    routes.post("/api/books/{b}/engines", this::ask);
  }

  private void show(Context ctx) {
    answer(ctx, Requests.book(library, ctx));
  }

  /** Only a name comes with the request, never a command. */
  private void ask(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    String name = Requests.text(Requests.body(ctx), "name", MOST_LETTERS);
    if (!engines.names().contains(name)) {
      throw new ApiException(ApiError.REFUSED, "The service was not started with such a reader");
    }
    if (!engines.ask(book, name)) {
      throw new ApiException(ApiError.REFUSED, "Another reader is at this book already");
    }
    ctx.status(202);
    answer(ctx, book);
  }

  private void answer(Context ctx, BookCard book) {
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("engines", engines.names());
    engines.of(book.id()).ifPresent(a -> answer.put("asked", asked(a)));
    ctx.json(answer);
  }

  private static Map<String, Object> asked(EngineJobs.Asked asked) {
    Map<String, Object> said = new LinkedHashMap<>();
    said.put("name", asked.engine());
    said.put("running", asked.running());
    asked.why().ifPresent(w -> said.put("why", w));
    return said;
  }
}
