package org.barmap.web.api;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.SameSite;
import io.javalin.router.Endpoint;
import java.net.URI;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.web.access.Keys;
import org.barmap.web.access.Places;
import org.barmap.web.access.Seen;
import org.barmap.web.access.Who;

/**
 * Lets in only who has a key, and only pages of this service, and tells the browser how far a page
 * may go.
 *
 * <p>A request must name the address that it came to as its host, so that a site that points its
 * own name here gets nothing; requests a browser sends for another site are refused by their
 * origin. A key comes as {@code Authorization: Bearer} or in a cookie and says what may be asked.
 */
public record Guard(Keys keys, Places places) {

  /** Where a key is shown for the first time. */
  public static final String ENTRY = "/open";

  private static final String KNOWN = "barmap.known";
  private static final String WHO = "barmap.who";
  private static final String BEARER = "Bearer ";

  /** Browsers keep a cookie no longer (RFC 6265bis). */
  private static final Duration LONGEST = Duration.ofDays(400);

  /**
   * What the pages are made of, and what tells others how to ask, with nothing of a book in it; a
   * name never begins with a dot.
   */
  private static final Pattern OPEN =
      Pattern.compile(
          ENTRY
              + "|/health/(live|ready)|/favicon\\.svg|/sw\\.js|/site\\.json|/(js|css)(/\\w[\\w-]*)+\\.(js|css)"
              + "|/openapi\\.(yaml|json)|/schemas/\\w[\\w-]*\\.json"
              + "|/docs/?|/docs(/\\w[\\w-]*)+\\.\\w+");

  /** The data folder's key is above those of one book. */
  private static final Comparator<Who> MOST =
      Comparator.comparing((Who w) -> w instanceof Who.Owner).thenComparing(Who::role);

  private static final Pattern BOOK = Pattern.compile("/api/books/([^/]+)(/.*)?");

  private static final String POLICY =
      "default-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; object-src 'none';"
          + " base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

  /** How far a page may go; on every answer. */
  static final Map<String, String> HEADERS =
      Map.of(
          "Content-Security-Policy", POLICY,
          "X-Content-Type-Options", "nosniff",
          "Referrer-Policy", "no-referrer",
          "Cross-Origin-Opener-Policy", "same-origin",
          "Cross-Origin-Resource-Policy", "same-origin");

  /** Looks at every request before anything else does. */
  public void register(RoutesConfig routes) {
    routes.before(this::check);
    routes.beforeMatched(this::letThrough);
  }

  private void check(Context ctx) {
    HEADERS.forEach(ctx::header);
    boolean api = ctx.path().startsWith("/api/");
    if (api) {
      ctx.header("Cache-Control", "no-store");
    }
    String host = Optional.ofNullable(ctx.header("Host")).orElse("");
    String at = ctx.req().getLocalAddr();
    if (!places.isName(at, named(host))) {
      throw new ApiException(ApiError.FOREIGN, "This service answers under its own addresses only");
    }
    String origin = Optional.ofNullable(ctx.header("Origin")).orElse("");
    String site = Optional.ofNullable(ctx.header("Sec-Fetch-Site")).orElse("same-origin");
    boolean own =
        origin.isEmpty() || origin.equals((isSecure(ctx) ? "https://" : "http://") + host);
    boolean near = site.equals("same-origin") || site.equals("none");
    boolean reads = ctx.method().name().equals("GET") || ctx.method().name().equals("HEAD");
    if (!own || (api || !reads) && !near) {
      throw new ApiException(ApiError.FOREIGN, "The request comes from another site");
    }
    if (reads && OPEN.matcher(ctx.path()).matches()) {
      return;
    }
    List<Who> known = known(ctx);
    ctx.attribute(KNOWN, known);
    // a HEAD matches no route of its own: whether something is there is told to its owner only
    if (ctx.method().name().equals("HEAD")
        && known.stream().noneMatch(Who.Owner.class::isInstance)) {
      throw notYours(known);
    }
  }

  private boolean isBehind(Context ctx) {
    String host = Optional.ofNullable(ctx.header("Host")).orElse("");
    return places.isBehind(ctx.req().getLocalAddr(), named(host));
  }

  private boolean isSecure(Context ctx) {
    return ctx.req().isSecure()
        || isBehind(ctx) && places.behind().map(b -> "https".equals(b.getScheme())).orElse(false);
  }

  /** Returns the address by which a request called the service, without a slash at its end. */
  public String address(Context ctx) {
    return (isSecure(ctx) ? "https://" : "http://") + ctx.header("Host");
  }

  /** Tells whether a request comes from the machine the service runs on, and through no proxy. */
  public boolean isHere(Context ctx) {
    return ctx.req().getLocalAddr().equals(Places.HERE) && !isBehind(ctx);
  }

  /** Returns where a request comes from: the proxy adds it last to what it was told. */
  public String from(Context ctx) {
    String told = Optional.ofNullable(ctx.header("X-Forwarded-For")).orElse("");
    return isBehind(ctx) && !told.isBlank()
        ? told.substring(told.lastIndexOf(',') + 1).strip()
        : ctx.ip();
  }

  /** Lets a request through to the route that it matches, or ends it. */
  private void letThrough(Context ctx) {
    List<Who> known = Optional.<List<Who>>ofNullable(ctx.attribute(KNOWN)).orElse(List.of());
    Endpoint route = ctx.endpoints().matchedHttpEndpoint();
    if (route == null || route.path.equals(ENTRY) || OPEN.matcher(route.path).matches()) {
      return;
    }
    String method = route.method.name();
    Matcher book = BOOK.matcher(ctx.path());
    Optional<String> named = book.matches() ? Optional.of(book.group(1)) : Optional.empty();
    // who has several keys asks with the one by which the most may be done
    Optional<Who> who = known.stream().filter(w -> w.may(method, route.path, named)).max(MOST);
    if (who.isPresent()) {
      ctx.attribute(WHO, who.get());
    } else if (route.path.equals("/")) {
      ctx.redirect(begin(known));
      ctx.skipRemainingHandlers();
    } else {
      throw notYours(known);
    }
  }

  private static ApiException notYours(List<Who> known) {
    return new ApiException(
        ApiError.NOT_YOURS,
        "The link you were given is not for this",
        Map.of("begin", begin(known)));
  }

  /** Who has several keys begins where the most may be done. */
  private static String begin(List<Who> known) {
    return known.stream().max(MOST).map(Who::begin).orElse("/");
  }

  /** Returns who the keys of a request say it comes from, one at least. */
  private List<Who> known(Context ctx) {
    String shown = Optional.ofNullable(ctx.header("Authorization")).orElse("");
    if (shown.startsWith(BEARER)) {
      return List.of(known(keys.lookAgain(shown.substring(BEARER.length()).strip(), from(ctx))));
    }
    List<Who> known = new ArrayList<>();
    List<Seen> others = new ArrayList<>();
    ctx.cookieMap()
        .forEach(
            (name, key) -> {
              if (keys.isCookie(name)) {
                Seen seen = keys.lookAgain(key, from(ctx));
                if (seen instanceof Seen.Known one) {
                  known.add(one.who());
                } else {
                  others.add(seen);
                }
              }
            });
    if (known.isEmpty()) {
      known.add(known(others.isEmpty() ? new Seen.Wrong() : others.get(0)));
    }
    return known;
  }

  /**
   * Lets a browser keep a key that it has shown: no page and no history has it.
   *
   * @param who whose key it is
   */
  public void remember(Context ctx, Who who, String key) {
    Duration left =
        who instanceof Who.Invited guest
            ? Duration.between(Instant.now(), guest.invite().until())
            : LONGEST;
    Cookie cookie = new Cookie(keys.cookie(who), key);
    cookie.setMaxAge((int) Math.max(1, Math.min(left.toSeconds(), LONGEST.toSeconds())));
    cookie.setHttpOnly(true);
    cookie.setSecure(isSecure(ctx));
    cookie.setSameSite(SameSite.STRICT);
    ctx.cookie(cookie);
  }

  /** Returns the one a key belongs to, or ends the request with what is wrong with the key. */
  public static Who known(Seen seen) {
    if (seen instanceof Seen.Known known) {
      return known.who();
    }
    if (seen instanceof Seen.Slowed slowed) {
      throw new ApiException(
          ApiError.SLOW_DOWN,
          "Too many wrong keys came from there; try again in " + slowed.seconds() + " s",
          Map.of("seconds", slowed.seconds()));
    }
    if (seen instanceof Seen.Ended) {
      throw new ApiException(ApiError.ENDED, "Ask whoever gave you the link for another one");
    }
    throw new ApiException(
        ApiError.NEEDS_KEY,
        "Open the whole address that stands where barmap was started, or the link or code you were"
            + " given; this browser then remembers it");
  }

  /** Returns who asks; nobody only for what is open to all. */
  public static Optional<Who> whoAsks(Context ctx) {
    return Optional.ofNullable(ctx.attribute(WHO));
  }

  private static String named(String host) {
    try {
      return Optional.ofNullable(URI.create("http://" + host).getHost()).orElse("");
    } catch (IllegalArgumentException e) {
      return "";
    }
  }
}
