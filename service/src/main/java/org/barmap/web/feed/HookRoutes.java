package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.library.feed.Delivery;
import org.barmap.library.feed.Hook;
import org.barmap.library.feed.Hooks;
import org.barmap.library.feed.Told;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.work.hook.HookAddress;
import org.barmap.work.hook.NetRules;
import org.barmap.work.hook.Signature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Web hooks of a book, and of all books; for who has the data folder, as they outlive any link. */
public record HookRoutes(Library library, NetRules rules) {

  private static final String OF_BOOK = "/api/books/{b}/hooks";
  private static final String OF_ALL = "/api/hooks";
  private static final int MOST_LETTERS = 2000;

  private static final List<Told> EVENTS = List.of(Told.CHECKED, Told.CHANGED, Told.PLAN_CHANGED);

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    for (String base : List.of(OF_BOOK, OF_ALL)) {
      routes.get(base, this::all);
      routes.post(base, this::add);
      routes.get(base + "/{h}", this::one);
      routes.patch(base + "/{h}", this::turn);
      routes.delete(base + "/{h}", this::remove);
      routes.post(base + "/{h}/try", this::tryOut);
      routes.post(base + "/{h}/deliveries/{d}/again", this::again);
    }
  }

  private Hooks hooks() {
    return library.feed().hooks();
  }

  private Optional<String> book(Context ctx) {
    return ctx.pathParamMap().containsKey("b")
        ? Optional.of(Requests.book(library, ctx).id())
        : Optional.empty();
  }

  private Hook hook(Context ctx) {
    Optional<String> book = book(ctx);
    return hooks()
        .find(ctx.pathParam("h"))
        .filter(h -> h.book().equals(book))
        .orElseThrow(() -> new ApiException(ApiError.NO_HOOK, "It may have been removed"));
  }

  private void all(Context ctx) {
    ctx.json(Map.of("hooks", hooks().of(book(ctx))));
  }

  private void add(Context ctx) {
    Optional<String> book = book(ctx);
    ObjectNode body = Requests.body(ctx);
    List<Told> events = events(body.path("events"));
    String address = Requests.text(body, "address", MOST_LETTERS);
    HookAddress.problem(address, rules)
        .ifPresent(
            why -> {
              throw new ApiException(ApiError.BAD_TARGET, why);
            });
    String secret = Signature.freshSecret();
    Hook made =
        hooks()
            .add(book, address, secret, events)
            .orElseThrow(
                () ->
                    new ApiException(
                        ApiError.BAD_TARGET, "There are too many already; remove one"));
    ctx.status(201);
    ctx.header("Location", ctx.path() + "/" + made.id());
    ctx.json(Map.of("hook", made, "secret", secret));
  }

  /** What it is told of; of all there is where nothing is said. */
  private static List<Told> events(JsonNode said) {
    if (said.isMissingNode()) {
      return EVENTS;
    }
    List<Told> events = new ArrayList<>();
    for (JsonNode word : said) {
      Told one =
          Told.of(word.asString(""))
              .filter(EVENTS::contains)
              .orElseThrow(
                  () ->
                      new ApiException(
                          ApiError.BAD_REQUEST,
                          "It can be told of checked, changed and plan-changed"));
      if (!events.contains(one)) {
        events.add(one);
      }
    }
    if (events.isEmpty()) {
      throw new ApiException(ApiError.BAD_REQUEST, "Say of what it is told");
    }
    return events;
  }

  private void one(Context ctx) {
    Hook hook = hook(ctx);
    List<Delivery> deliveries = hooks().deliveries(hook.id());
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("hook", hook);
    answer.put("deliveries", deliveries);
    ctx.json(answer);
  }

  private void turn(Context ctx) {
    Hook hook = hook(ctx);
    JsonNode on = Requests.body(ctx).path("on");
    if (!on.isBoolean()) {
      throw new ApiException(ApiError.BAD_REQUEST, "Say whether it is on: true or false");
    }
    Optional<String> off = on.asBoolean() ? Optional.empty() : Optional.of("Turned off by you");
    if (!hooks().turn(hook.id(), off)) {
      throw new ApiException(
          ApiError.BAD_TARGET,
          "It came back from a backup, without its secret: remove it and register it again");
    }
    ctx.json(Map.of("hook", hook(ctx)));
  }

  private void remove(Context ctx) {
    hooks().remove(hook(ctx).id());
    ctx.status(204);
  }

  private void tryOut(Context ctx) {
    Hook hook = hook(ctx);
    if (hook.off().isPresent()) {
      throw new ApiException(ApiError.BAD_TARGET, "It is turned off");
    }
    hooks().tryOut(hook.id(), hook.book());
    ctx.status(202);
  }

  private void again(Context ctx) {
    Hook hook = hook(ctx);
    if (hook.off().isPresent()) {
      throw new ApiException(ApiError.BAD_TARGET, "It is turned off");
    }
    if (!hooks().again(hook.id(), ctx.pathParam("d"))) {
      throw new ApiException(ApiError.NO_HOOK, "There is nothing of this id to send again");
    }
    ctx.status(202);
  }
}
