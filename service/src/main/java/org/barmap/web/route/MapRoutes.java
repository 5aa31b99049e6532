package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.Consequences;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.barmap.map.Outline;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.work.Events;
import org.barmap.work.Worker;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The map, its doubts, and corrections with their history. */
public record MapRoutes(Library library, Worker worker, Events events) {

  /** A doubt has few answers. */
  private static final int MOST_CHECKED = 12;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/map", this::map);
    routes.get("/api/books/{b}/doubts", this::doubts);
    routes.get("/api/books/{b}/history", this::history);
    routes.post("/api/books/{b}/corrections", this::correct);
    routes.post("/api/books/{b}/corrections/check", this::check);
    routes.post("/api/books/{b}/pages/{p}/line", this::line);
    routes.post("/api/books/{b}/undo", this::undo);
    routes.post("/api/books/{b}/redo", this::redo);
  }

  private void map(Context ctx) {
    Versioned<Draft> draft = Requests.draft(library, ctx);
    Requests.etag(ctx, draft.revision());
    ctx.header("Barmap-State", draft.value().isVerified() ? "verified" : "draft");
    if ("download".equals(ctx.queryParam("format"))) {
      ctx.header("Content-Disposition", "attachment; filename=\"book.barmap.json\"");
    }
    List<PageCard> pages = library.pages().all(ctx.pathParam("b"));
    Optional<String> some = Optional.ofNullable(ctx.queryParam("pages"));
    ctx.json(
        some.map(s -> Views.mapOf(draft.value(), pages, wanted(ctx, s, draft.value().map())))
            .orElseGet(() -> Views.map(draft.value(), pages)));
  }

  /** Pages named by their indices, and the page of a bar where one is named. */
  private static Set<Integer> wanted(Context ctx, String named, BarMap map) {
    Set<Integer> wanted = new HashSet<>();
    for (String index : named.split(",")) {
      if (index.matches("\\d{1,6}")) {
        wanted.add(Integer.parseInt(index));
      }
    }
    Optional.ofNullable(ctx.queryParam("bar"))
        .flatMap(map::bar)
        .ifPresent(b -> wanted.add(b.page()));
    return wanted;
  }

  private void doubts(Context ctx) {
    Versioned<Draft> draft = Requests.draft(library, ctx);
    Requests.etag(ctx, draft.revision());
    ctx.json(Map.of("doubts", draft.value().open()));
  }

  private void history(Context ctx) {
    Requests.book(library, ctx);
    ctx.json(Views.HistoryView.of(library.drafts().history(ctx.pathParam("b"))));
  }

  private void correct(Context ctx) {
    Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    ObjectNode body = Requests.body(ctx);
    Correction correction = correction(body);
    String who = Requests.text(body, "who", 80);
    Draft before = Requests.draft(library, ctx).value();
    answer(ctx, before, library.drafts().correct(ctx.pathParam("b"), revision, who, correction));
  }

  /** A line of music that was missed, drawn by hand: it is read in its frame. */
  private void line(Context ctx) {
    PageCard page = Requests.page(library, ctx);
    long revision = Requests.revision(ctx);
    ObjectNode body = Requests.body(ctx);
    Optional<Outline> frame =
        Optional.ofNullable(BarMapJson.mapper().treeToValue(body.path("outline"), Outline.class));
    String who = Requests.text(body, "who", 80);
    Draft before = Requests.draft(library, ctx).value();
    PageCorrection.AddSystem drawn = new PageCorrection.AddSystem(page.index(), frame);
    answer(ctx, before, worker.lines().read(ctx.pathParam("b"), page, revision, who, drawn));
  }

  /** What each of some corrections would change; nothing is stored. */
  private void check(Context ctx) {
    Versioned<Draft> draft = Requests.draft(library, ctx);
    JsonNode asked = Requests.body(ctx).path("corrections");
    if (!asked.isArray() || asked.isEmpty() || asked.size() > MOST_CHECKED) {
      throw new ApiException(
          ApiError.BAD_REQUEST, "Name 1 to " + MOST_CHECKED + " corrections to be checked");
    }
    List<Consequences> found = new ArrayList<>();
    for (JsonNode one : asked) {
      found.add(Consequences.of(draft.value(), correction(one)));
    }
    ctx.json(Map.of("revision", draft.revision(), "checks", found));
  }

  /** A page is never taken for unseen because a word was left out. */
  private static Correction correction(JsonNode said) {
    Correction correction = Requests.read(said, Correction.class);
    if (correction == null) {
      throw new ApiException(ApiError.BAD_REQUEST, "A correction is a JSON object");
    }
    if (correction instanceof PageCorrection.VerifyPage && !said.path("verified").isBoolean()) {
      throw new ApiException(ApiError.BAD_REQUEST, "Say whether it is verified: true or false");
    }
    return correction;
  }

  private void undo(Context ctx) {
    answer(
        ctx,
        Requests.draft(library, ctx).value(),
        library.drafts().undo(ctx.pathParam("b"), Requests.revision(ctx)));
  }

  private void redo(Context ctx) {
    answer(
        ctx,
        Requests.draft(library, ctx).value(),
        library.drafts().redo(ctx.pathParam("b"), Requests.revision(ctx)));
  }

  /** What came of a step; with {@code ?pages=changed} only of the pages it changed. */
  private void answer(Context ctx, Draft before, Saved<Draft> saved) {
    Saved.Done<Draft> done = Requests.done(saved);
    String book = ctx.pathParam("b");
    events.mapChanged(book, done.now().revision());
    Requests.etag(ctx, done.now().revision());
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("revision", done.now().revision());
    answer.put("entry", Views.EntryView.of(done.entry()));
    Draft now = done.now().value();
    List<PageCard> pages = library.pages().all(book);
    boolean part = "changed".equals(ctx.queryParam("pages"));
    answer.put(
        "map", part ? Views.mapOf(now, pages, Views.changed(before, now)) : Views.map(now, pages));
    // with the map they belong to: a doubt of an older map may be gone when it is answered
    answer.put("doubts", now.open());
    ctx.json(answer);
  }
}
