package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.Settings;
import org.barmap.library.Versioned;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.access.Role;
import org.barmap.web.access.Who;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.work.Events;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The shelf and the bin.
 *
 * @param guard knows where a request comes from
 * @param events tell other windows what was set
 */
public record BookRoutes(Library library, Guard guard, Events events) {

  private static final Set<String> SETTINGS =
      Arrays.stream(Settings.class.getRecordComponents())
          .map(RecordComponent::getName)
          .collect(Collectors.toSet());

  private static final int FEWEST_DAYS = 7;
  private static final int MOST_DAYS = 3650;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books", this::all);
    routes.post("/api/books", this::add);
    routes.get("/api/books/{b}", this::one);
    routes.patch("/api/books/{b}", this::rename);
    routes.delete("/api/books/{b}", this::discard);
    routes.post("/api/books/{b}/restore", this::restore);
    routes.get("/api/bin", this::bin);
    routes.put("/api/bin", this::setBinDays);
    routes.delete("/api/bin", this::emptyBin);
    routes.delete("/api/bin/{b}", this::removeForGood);
    routes.get("/api/books/{b}/settings", this::settings);
    routes.put("/api/books/{b}/settings", this::setSettings);
  }

  private void all(Context ctx) {
    List<Views.BookView> books =
        library.books().all().stream().map(b -> Views.book(library, b)).toList();
    ctx.json(Map.of("books", books));
  }

  private void add(Context ctx) {
    ObjectNode body = Requests.body(ctx);
    BookCard book =
        library.books().add(Requests.text(body, "title", 200), Requests.text(body, "part", 200));
    ctx.status(201);
    ctx.header("Location", "/api/books/" + book.id());
    ctx.json(Views.book(library, book));
  }

  private void one(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    Versioned<Draft> now = Requests.draft(library, ctx);
    Draft draft = now.value();
    Requests.etag(ctx, now.revision());
    ObjectNode tree = BarMapJson.mapper().valueToTree(Views.book(library, book));
    tree.put("pageCount", book.pages());
    tree.put("as", Guard.whoAsks(ctx).map(Who::role).orElse(Role.OWNER).word());
    tree.putObject("keeps")
        .put("pictures", library.pages().isElsewhere() ? "elsewhere" : "folder")
        .put("machine", guard.isHere(ctx) ? "this" : "other");
    tree.set(
        "pages",
        BarMapJson.mapper().valueToTree(Views.pages(library.pages().all(book.id()), draft)));
    ctx.json(tree);
  }

  private void rename(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    ObjectNode body = Requests.body(ctx);
    String title = body.has("title") ? Requests.text(body, "title", 200) : book.title();
    String part = body.has("part") ? Requests.text(body, "part", 200) : book.part();
    long revision =
        Requests.done(library.books().rename(book.id(), Requests.revision(ctx), title, part))
            .now()
            .revision();
    events.mapChanged(book.id(), revision);
    Requests.etag(ctx, revision);
    ctx.json(Views.book(library, Requests.book(library, ctx)));
  }

  private void discard(Context ctx) {
    library.books().discard(Requests.book(library, ctx).id());
    ctx.status(204);
  }

  private void restore(Context ctx) {
    if (!library.books().restore(ctx.pathParam("b"))) {
      throw new ApiException(ApiError.NO_BOOK, "It is not in the bin");
    }
    ctx.json(Views.book(library, Requests.book(library, ctx)));
  }

  private void bin(Context ctx) {
    Map<String, Object> answer = new LinkedHashMap<>();
    library.keeping().binDays().ifPresent(days -> answer.put("days", days));
    answer.put("books", library.books().bin());
    ctx.json(answer);
  }

  /** Sets after how many days a book in the bin goes by itself; null for never. */
  private void setBinDays(Context ctx) {
    JsonNode days = Requests.body(ctx).path("days");
    boolean fits = days.isInt() && days.asInt() >= FEWEST_DAYS && days.asInt() <= MOST_DAYS;
    if (!fits && !days.isNull()) {
      throw new ApiException(
          ApiError.REFUSED,
          "A book can go after %d to %d days, or not by itself".formatted(FEWEST_DAYS, MOST_DAYS));
    }
    library.keeping().setBinDays(fits ? Optional.of(days.asInt()) : Optional.empty());
    bin(ctx);
  }

  private void emptyBin(Context ctx) {
    Views.forgotten(ctx);
    ctx.json(Map.of("removed", library.keeping().emptyBin()));
  }

  private void removeForGood(Context ctx) {
    if (!library.books().removeForGood(ctx.pathParam("b"))) {
      throw new ApiException(ApiError.NO_BOOK, "It is not in the bin");
    }
    Views.forgotten(ctx);
    ctx.status(204);
  }

  private void settings(Context ctx) {
    Versioned<Settings> now = library.books().versionedSettings(Requests.book(library, ctx).id());
    Requests.etag(ctx, now.revision());
    ctx.json(now.value());
  }

  private void setSettings(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    ObjectNode tree = BarMapJson.mapper().valueToTree(library.books().settings(book.id()));
    Requests.body(ctx)
        .properties()
        .forEach(
            e -> {
              if (SETTINGS.contains(e.getKey())) {
                tree.set(e.getKey(), e.getValue());
              }
            });
    Settings settings = Requests.read(tree, Settings.class);
    if (!settings.problems().isEmpty()) {
      throw new ApiException(ApiError.REFUSED, String.join(". ", settings.problems()));
    }
    if (!library.books().setSettings(book.id(), revision, settings)) {
      throw new ApiException(ApiError.STALE, "Someone set them meanwhile; load them again");
    }
    events.settingsChanged(book.id(), revision + 1);
    Requests.etag(ctx, revision + 1);
    ctx.json(settings);
  }
}
