package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.net.InetAddress;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.web.share.Guests;
import org.barmap.web.share.QrCode;
import org.barmap.web.share.Role;
import org.barmap.work.Events;

/** A book opened to phones and other desks of the local net, and closed again. */
public record ShareRoutes(Library library, Events events, Guests guests) {

  /**
   * Whom a book is open to.
   *
   * @param as phone or desk
   * @param links the same address once for each net this machine is in
   */
  private record Open(String as, List<String> links) {}

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get(Guard.ENTRY, this::enter);
    routes.get("/api/books/{b}/share", this::state);
    routes.post("/api/books/{b}/share", this::open);
    routes.delete("/api/books/{b}/share", this::end);
    routes.get("/api/books/{b}/share/{as}", this::code);
  }

  /** The key comes once by link and goes on in a cookie: no page and no history has it. */
  private void enter(Context ctx) {
    String key = Optional.ofNullable(ctx.queryParam("key")).orElse("");
    var guest = Guard.known(guests.look(key, ctx.ip()));
    ctx.header(
        "Set-Cookie", Guard.cookieName(ctx) + "=" + key + "; Path=/; HttpOnly; SameSite=Lax");
    ctx.header("Cache-Control", "no-store");
    ctx.redirect(guest.begin());
  }

  private void state(Context ctx) {
    answer(ctx, Requests.book(library, ctx).id());
  }

  private void open(Context ctx) {
    String book = Requests.book(library, ctx).id();
    if (guests.addresses().isEmpty()) {
      throw new ApiException(ApiError.REFUSED, "Start barmap with: ./barmap serve --share");
    }
    String word = Requests.text(Requests.body(ctx), "as", 20);
    Role role =
        Role.of(word)
            .orElseThrow(() -> new ApiException(ApiError.BAD_REQUEST, "\"as\" is phone or desk"));
    guests.open(book, role);
    answer(ctx, book);
  }

  private void end(Context ctx) {
    String book = Requests.book(library, ctx).id();
    guests.end(book);
    // who listens is told, and the lines of guests are cut
    events.tell(book, "share", Map.of());
    answer(ctx, book);
  }

  private void answer(Context ctx, String book) {
    List<Open> open =
        Arrays.stream(Role.values())
            .filter(role -> guests.key(book, role).isPresent())
            .map(role -> new Open(role.word(), links(ctx, book, role)))
            .toList();
    ctx.json(Map.of("possible", !guests.addresses().isEmpty(), "open", open));
  }

  private List<String> links(Context ctx, String book, Role role) {
    return guests
        .key(book, role)
        .map(key -> guests.addresses().stream().map(a -> link(ctx, a, key)).toList())
        .orElse(List.of());
  }

  private static String link(Context ctx, InetAddress address, String key) {
    return "http://%s:%d%s?key=%s"
        .formatted(address.getHostAddress(), ctx.req().getLocalPort(), Guard.ENTRY, key);
  }

  /** The address as a picture a phone's camera reads. */
  private void code(Context ctx) {
    String book = Requests.book(library, ctx).id();
    List<String> links =
        Role.of(ctx.pathParam("as")).map(role -> links(ctx, book, role)).orElse(List.of());
    if (links.isEmpty()) {
      throw new ApiException(ApiError.NOT_FOUND, "The book is not shared");
    }
    int at = Requests.number(ctx, "at", 0, links.size() - 1).orElse(0);
    ctx.contentType("image/svg+xml");
    ctx.result(QrCode.svg(links.get(at)));
  }
}
