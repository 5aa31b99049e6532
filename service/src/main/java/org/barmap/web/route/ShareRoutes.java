package org.barmap.web.route;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.web.access.Invite;
import org.barmap.web.access.Keys;
import org.barmap.web.access.PictureLog;
import org.barmap.web.access.Places;
import org.barmap.web.access.QrCode;
import org.barmap.web.access.Role;
import org.barmap.web.access.Who;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Guard;
import org.barmap.web.api.Requests;
import org.barmap.web.site.SitePages;
import org.barmap.work.Events;
import tools.jackson.databind.node.ObjectNode;

/**
 * Who is let in: the door itself, and a book's keys, made and ended.
 *
 * @param places where others reach the service
 */
public record ShareRoutes(
    Library library, Events events, Keys keys, PictureLog log, Places places) {

  /** A phone takes the pages in and is done. */
  private static final int DAYS_OF_A_PHONE = 1;

  /** Rehearsals and a run. */
  private static final int DAYS = 14;

  private static final int MOST_DAYS = 366;
  private static final int MOST_LETTERS = 60;
  private static final Pattern BOOK = Pattern.compile("[\\w-]{1,64}");

  /**
   * A key of a book.
   *
   * @param as phone, reader, corrector or owner
   * @param last day on which it opens the book
   * @param links the same address once for each net this machine is in
   */
  private record Open(String id, String as, String name, LocalDate last, List<String> links) {}

  /**
   * Somebody was given a picture.
   *
   * @param page its number now; 0 for several pages, or where it was taken out
   * @param what image, crop, sheets or pack
   */
  private record Looked(Instant at, String who, boolean owner, int page, String what) {}

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get(Guard.ENTRY, this::enter);
    routes.get("/api/books/{b}/share", this::state);
    routes.post("/api/books/{b}/share", this::open);
    routes.delete("/api/books/{b}/share", this::endAll);
    routes.get("/api/books/{b}/share/{k}", this::code);
    routes.delete("/api/books/{b}/share/{k}", this::end);
    routes.get("/api/books/{b}/seen", this::seen);
  }

  /**
   * The key comes once by link and goes on in a cookie. A link may stand on a page of another site,
   * for instance in a letter: what a browser asks for next on account of that page goes without the
   * cookie, so a page of ours leads on.
   */
  private void enter(Context ctx) {
    ctx.header("Cache-Control", "no-store");
    String key = Optional.ofNullable(ctx.queryParam("key")).orElse("");
    String book = Optional.ofNullable(ctx.queryParam("b")).orElse("");
    if (key.isEmpty()) {
      Optional<String> as = Optional.ofNullable(ctx.queryParam("as")).filter("phone"::equals);
      ctx.html(SitePages.onward(begin(as.isPresent() ? Role.PHONE : Role.READER, book)));
      return;
    }
    Guard guard = new Guard(keys, places);
    Who who = Guard.known(keys.look(key, guard.from(ctx)));
    guard.remember(ctx, who, key);
    if (who instanceof Who.Invited guest) {
      Invite invite = guest.invite();
      String as = invite.role() == Role.PHONE ? "&as=phone" : "";
      ctx.redirect(Guard.ENTRY + "?b=" + invite.book() + as);
    } else {
      ctx.redirect(begin(Role.OWNER, book));
    }
  }

  /** Says nothing of which books there are: nobody needs a key to be led on. */
  private static String begin(Role role, String book) {
    return BOOK.matcher(book).matches() ? role.page() + "?b=" + book : "/";
  }

  private void state(Context ctx) {
    answer(ctx, Requests.book(library, ctx).id());
  }

  private void open(Context ctx) {
    String book = Requests.book(library, ctx).id();
    if (!places.isShared()) {
      throw new ApiException(ApiError.REFUSED, "Start barmap with: ./barmap serve --share");
    }
    ObjectNode body = Requests.body(ctx);
    Role role =
        Role.of(Requests.text(body, "as", 20))
            .orElseThrow(
                () ->
                    new ApiException(
                        ApiError.BAD_REQUEST, "\"as\" is phone, reader, corrector or owner"));
    if (keys.invites(book).size() >= Keys.MOST_OF_A_BOOK) {
      throw new ApiException(
          ApiError.REFUSED, "This book has as many links as it can have; end some of them");
    }
    String name = Requests.text(body, "name", MOST_LETTERS);
    LocalDate last = last(Requests.text(body, "last", 20), role);
    Instant until = last.plusDays(1).atStartOfDay(ZoneId.systemDefault()).toInstant();
    keys.invite(book, role, name.isEmpty() ? "Without a name" : name, until);
    ctx.status(201);
    answer(ctx, book);
  }

  /** The last day of a key, in the time of this machine. */
  private static LocalDate last(String text, Role role) {
    LocalDate today = LocalDate.now(ZoneId.systemDefault());
    if (text.isEmpty()) {
      return today.plusDays(role == Role.PHONE ? DAYS_OF_A_PHONE : DAYS);
    }
    LocalDate last;
    try {
      last = LocalDate.parse(text);
    } catch (DateTimeException e) {
      throw new ApiException(ApiError.BAD_REQUEST, "\"last\" is a day, as 2026-05-20");
    }
    if (last.isBefore(today) || last.isAfter(today.plusDays(MOST_DAYS))) {
      throw new ApiException(ApiError.REFUSED, "The last day is today or within a year");
    }
    return last;
  }

  private void endAll(Context ctx) {
    end(ctx, Requests.book(library, ctx).id(), invite -> true);
  }

  private void end(Context ctx) {
    String id = ctx.pathParam("k");
    String book = Requests.book(library, ctx).id();
    invite(book, id);
    end(ctx, book, invite -> invite.id().equals(id));
  }

  private void end(Context ctx, String book, Predicate<Invite> which) {
    keys.end(invite -> invite.book().equals(book) && which.test(invite));
    // who listens is told, and the lines of guests are cut
    events.tell(book, "share", Map.of());
    answer(ctx, book);
  }

  private Invite invite(String book, String id) {
    return keys.invites(book).stream()
        .filter(invite -> invite.id().equals(id))
        .findFirst()
        .orElseThrow(() -> new ApiException(ApiError.NOT_FOUND, "This link has ended"));
  }

  private void answer(Context ctx, String book) {
    List<Open> open = keys.invites(book).stream().map(invite -> open(ctx, invite)).toList();
    ctx.json(Map.of("possible", places.isShared(), "open", open));
  }

  private Open open(Context ctx, Invite invite) {
    LocalDate after = LocalDate.ofInstant(invite.until(), ZoneId.systemDefault());
    return new Open(
        invite.id(),
        invite.role().word(),
        invite.name(),
        after.minusDays(1),
        links(ctx, invite.key()));
  }

  private List<String> links(Context ctx, String key) {
    return places.bases(ctx.req().getLocalPort()).stream()
        .map(base -> base + Guard.ENTRY + "?key=" + key)
        .toList();
  }

  /** Who was given pictures of the book's pages, the last first. */
  private void seen(Context ctx) {
    String book = Requests.book(library, ctx).id();
    Map<String, Integer> pages =
        library.pages().all(book).stream()
            .collect(Collectors.toMap(PageCard::id, PageCard::index, (a, b) -> a));
    List<Looked> looks = new ArrayList<>();
    for (PictureLog.Look look : log.of(book)) {
      int page = pages.getOrDefault(look.page(), 0);
      looks.add(0, new Looked(look.at(), look.who(), look.owner(), page, look.what()));
    }
    ctx.json(Map.of("looks", looks));
  }

  /** The address as a picture a phone's camera reads. */
  private void code(Context ctx) {
    String book = Requests.book(library, ctx).id();
    List<String> links = links(ctx, invite(book, ctx.pathParam("k")).key());
    int which = Requests.number(ctx, "at", 0, links.size() - 1).orElse(0);
    ctx.contentType("image/svg+xml");
    ctx.result(QrCode.svg(links.get(which)));
  }
}
