package org.barmap.web.api;

import io.javalin.http.Context;
import java.net.InetAddress;
import java.net.URI;
import java.net.UnknownHostException;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.web.share.Guest;
import org.barmap.web.share.Guests;
import org.barmap.web.share.Seen;

/**
 * Lets only pages of this service ask, and tells the browser how far a page may go.
 *
 * <p>What comes in over the loopback address must name it as its host, under one of its names: a
 * site that points its own name here gets nothing. What comes in over the local net must name the
 * very address it came to, and show a key, which says what it may do. Requests a browser sends for
 * another site are refused by their origin.
 */
public record Guard(Guests guests) {

  /** Where a key is shown for the first time. */
  public static final String ENTRY = "/share";

  /** Where the service listens for this machine. */
  public static final String HERE = "127.0.0.1";

  private static final String GUEST = "barmap.guest";
  private static final Set<String> LOOPBACK = Set.of(HERE, "localhost", "[::1]");

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

  /** Checks a request before anything else looks at it. */
  public void check(Context ctx) {
    HEADERS.forEach(ctx::header);
    boolean api = ctx.path().startsWith("/api/");
    if (api) {
      ctx.header("Cache-Control", "no-store");
    }
    String host = Optional.ofNullable(ctx.header("Host")).orElse("");
    boolean here = isHere(ctx);
    Set<String> names = here ? LOOPBACK : Set.of(ctx.req().getLocalAddr());
    if (!names.contains(named(host))) {
      throw new ApiException(ApiError.FOREIGN, "This service answers under its own addresses only");
    }
    String origin = Optional.ofNullable(ctx.header("Origin")).orElse("");
    String site = Optional.ofNullable(ctx.header("Sec-Fetch-Site")).orElse("same-origin");
    boolean own = origin.isEmpty() || origin.equals("http://" + host);
    boolean near = site.equals("same-origin") || site.equals("none");
    if (!own || api && !near) {
      throw new ApiException(ApiError.FOREIGN, "The request comes from another site");
    }
    if (!here && !ctx.path().equals(ENTRY)) {
      guest(ctx);
    }
  }

  /** Tells whether a request came from this machine, at the address only it reaches. */
  private static boolean isHere(Context ctx) {
    try {
      return ctx.req().getLocalAddr().equals(HERE)
          && InetAddress.getByName(ctx.req().getRemoteAddr()).isLoopbackAddress();
    } catch (UnknownHostException e) {
      return false;
    }
  }

  private void guest(Context ctx) {
    String key = Optional.ofNullable(ctx.cookie(cookieName(ctx))).orElse("");
    if (key.isEmpty()) {
      throw new ApiException(
          ApiError.NEEDS_KEY, "Scan the code in barmap's window, or type the address below it");
    }
    Guest guest = known(guests.look(key, ctx.ip()));
    ctx.attribute(GUEST, guest);
    String method = ctx.method().name();
    if (method.equals("GET") && ctx.path().equals("/")) {
      ctx.redirect(guest.begin());
      ctx.skipRemainingHandlers();
    } else if (!guest.may(method, ctx.path())) {
      throw new ApiException(
          ApiError.HERE_ONLY, "The address you were given is for one book, and not for this");
    }
  }

  /** Returns the guest a key belongs to, or ends the request with what is wrong with the key. */
  public static Guest known(Seen seen) {
    if (seen instanceof Seen.Known known) {
      return known.guest();
    }
    if (seen instanceof Seen.Slowed slowed) {
      throw new ApiException(
          ApiError.SLOW_DOWN,
          "Too many wrong keys came from there; try again in " + slowed.seconds() + " s",
          Map.of("seconds", slowed.seconds()));
    }
    throw new ApiException(
        ApiError.NEEDS_KEY,
        seen instanceof Seen.Ended
            ? "Sharing was ended at the machine barmap runs on"
            : "This key opens nothing; scan the code in barmap's window again");
  }

  /** Returns who asks, where it is somebody over the local net. */
  public static Optional<Guest> guestOf(Context ctx) {
    return Optional.ofNullable(ctx.attribute(GUEST));
  }

  /** Returns the name of the cookie with the key: browsers share cookies between ports. */
  public static String cookieName(Context ctx) {
    return "barmap-" + ctx.req().getLocalPort();
  }

  private static String named(String host) {
    try {
      return Optional.ofNullable(URI.create("http://" + host).getHost()).orElse("");
    } catch (IllegalArgumentException e) {
      return "";
    }
  }
}
