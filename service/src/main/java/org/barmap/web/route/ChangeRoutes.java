package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.MergePatch;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.change.BadChangesException;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.web.planned.Planning;
import org.barmap.web.planned.RoadMap;
import org.barmap.work.Events;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The show's changes and their history. */
public record ChangeRoutes(Library library, Events events, Planning planning) {

  /** Keys a request carries that are no part of a change. */
  private static final Set<String> NOT_OURS = Set.of("id", "when", "who");

  /** The longest list that is taken in one step. */
  private static final int MOST_AT_ONCE = 500;

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/changes", this::all);
    routes.post("/api/books/{b}/changes", this::add);
    routes.post("/api/books/{b}/changes/check", this::checked);
    routes.post("/api/books/{b}/changes/undo", ctx -> step(ctx, true));
    routes.post("/api/books/{b}/changes/redo", ctx -> step(ctx, false));
    routes.get("/api/books/{b}/changes/history", this::history);
    routes.patch("/api/books/{b}/changes/{c}", this::patch);
    routes.delete("/api/books/{b}/changes/{c}", this::remove);
  }

  private void all(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    Versioned<List<ObjectNode>> changes = changes(book);
    Requests.etag(ctx, changes.revision());
    ctx.json(document(changes.value()));
  }

  private Versioned<List<ObjectNode>> changes(BookCard book) {
    return library
        .changes()
        .find(book.id())
        .orElseThrow(() -> new ApiException(ApiError.NO_BOOK, "It may be in the bin"));
  }

  private static ObjectNode document(List<ObjectNode> changes) {
    ObjectNode document = BarMapJson.mapper().createObjectNode();
    document.put("format", ShowChanges.FORMAT);
    ArrayNode list = document.putArray("changes");
    changes.forEach(list::add);
    return document;
  }

  private void history(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    ctx.json(Views.HistoryView.of(library.changes().history(book.id())));
  }

  private void add(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    ObjectNode body = Requests.body(ctx);
    String who = Requests.text(body, "who", 80);
    List<ObjectNode> made = several(body);
    made.forEach(change -> check(change.deepCopy().put("id", "new")));
    Before before = before(ctx, book);
    answer(ctx, before, library.changes().add(book.id(), revision, who, made), 201);
  }

  /** The changes of a pasted list are one step and are planned once; a single one is the body. */
  private static List<ObjectNode> several(ObjectNode body) {
    JsonNode list = body.path("changes");
    if (list.isMissingNode()) {
      return List.of(bare(body));
    }
    List<ObjectNode> made = new ArrayList<>();
    for (JsonNode one : list) {
      if (!(one instanceof ObjectNode change)) {
        throw new ApiException(ApiError.BAD_REQUEST, "A change is a JSON object");
      }
      made.add(bare(change));
    }
    if (made.isEmpty() || made.size() > MOST_AT_ONCE) {
      throw new ApiException(
          ApiError.BAD_REQUEST, "Send 1 to " + MOST_AT_ONCE + " changes at once");
    }
    return made;
  }

  /**
   * Says what would follow from a change, with all the others in force; it may be said to take the
   * place of one of them. Stores nothing.
   */
  private void checked(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    String instead = Optional.ofNullable(ctx.queryParam("instead")).orElse("");
    ObjectNode body = bare(Requests.body(ctx)).put("id", "new");
    check(body);
    ShowChange change = Planning.change(body);
    List<ShowChange> all = new ArrayList<>(planning.changes(book).changes());
    int place = all.size();
    for (int i = 0; i < all.size(); i++) {
      place = all.get(i).meta().id().equals(instead) ? i : place;
    }
    if (place < all.size()) {
      all.set(place, change);
    } else {
      all.add(change);
    }
    BarMap map = Requests.draft(library, ctx).value().map();
    Plan plan = planning.plan(book, map, new ShowChanges(all));
    ctx.json(Map.of("checks", about(plan, change)));
  }

  private static List<PlanFinding> about(Plan plan, ShowChange change) {
    return plan.findings().stream()
        .filter(f -> f.change().filter(change.meta().id()::equals).isPresent())
        .toList();
  }

  private void patch(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    ObjectNode body = Requests.body(ctx);
    String id = ctx.pathParam("c");
    ObjectNode old =
        changes(book).value().stream()
            .filter(c -> c.path("id").asString("").equals(id))
            .findFirst()
            .orElseThrow(() -> new ApiException(ApiError.NO_CHANGE, "It was taken away"));
    ObjectNode values = bare(body);
    check(MergePatch.over(old, values));
    String who = Requests.text(body, "who", 80);
    Before before = before(ctx, book);
    answer(ctx, before, library.changes().patch(book.id(), revision, who, id, values), 200);
  }

  private void remove(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    String id = ctx.pathParam("c");
    if (changes(book).value().stream().noneMatch(c -> c.path("id").asString("").equals(id))) {
      throw new ApiException(ApiError.NO_CHANGE, "It was taken away");
    }
    Before before = before(ctx, book);
    answer(ctx, before, library.changes().remove(book.id(), revision, "", id), 200);
  }

  private void step(Context ctx, boolean back) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    answer(
        ctx,
        before(ctx, book),
        back
            ? library.changes().undo(book.id(), revision)
            : library.changes().redo(book.id(), revision),
        200);
  }

  private static ObjectNode bare(ObjectNode body) {
    ObjectNode change = body.deepCopy();
    NOT_OURS.forEach(change::remove);
    return change;
  }

  private static void check(ObjectNode change) {
    try {
      Planning.change(change);
    } catch (BadChangesException e) {
      throw new ApiException(ApiError.REFUSED, String.join(". ", e.reasons()));
    }
  }

  /**
   * A book before a step.
   *
   * @param changes with {@code ?numbers=changed} those in force, to say what is drawn otherwise
   */
  private record Before(BookCard book, Optional<Versioned<ShowChanges>> changes) {}

  private Before before(Context ctx, BookCard book) {
    boolean part = "changed".equals(ctx.queryParam("numbers"));
    return new Before(book, part ? Optional.of(planning.revisedChanges(book)) : Optional.empty());
  }

  private void answer(Context ctx, Before before, Saved<List<ObjectNode>> saved, int status) {
    Saved.Done<List<ObjectNode>> done = Requests.done(saved);
    BookCard book = before.book;
    List<ObjectNode> list = done.now().value();
    events.tell(book.id(), "plan", Map.of("revision", done.now().revision()));
    Requests.etag(ctx, done.now().revision());
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("revision", done.now().revision());
    answer.put("entry", Views.EntryView.of(done.entry()));
    Versioned<Draft> draft = Requests.draft(library, ctx);
    Versioned<ShowChanges> now = planning.revisedChanges(book);
    Plan plan = planning.plan(book, draft.value().map(), now.value());
    if (status == 201 && !list.isEmpty()) {
      ObjectNode change = list.get(list.size() - 1);
      answer.put("change", change);
      answer.put("checks", about(plan, Planning.change(change)));
    }
    answer.put("changes", list);
    if (before.changes.isPresent()) {
      RoadMap was = planning.road(book, draft, before.changes.get());
      answer.put("road", planning.road(book, draft, now).since(was));
    } else {
      answer.put("plan", PlanJson.tree(plan)); // so that the turns are seen without asking again
    }
    ctx.status(status);
    ctx.json(answer);
  }
}
