package org.barmap.web.api;

import io.javalin.http.Context;
import java.net.URI;
import java.util.Optional;
import java.util.Set;

/**
 * Lets only pages of this service ask, and tells the browser how far a page may go.
 *
 * <p>The host must be the loopback address under one of its names: a site that points its own name
 * here gets nothing. Requests a browser sends for another site are refused by their origin.
 */
public final class Guard {

  private static final Set<String> LOOPBACK = Set.of("127.0.0.1", "localhost", "[::1]");

  private static final String POLICY =
      "default-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; object-src 'none';"
          + " base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

  private Guard() {}

  /** Checks a request before anything else looks at it. */
  public static void check(Context ctx) {
    ctx.header("Content-Security-Policy", POLICY);
    ctx.header("X-Content-Type-Options", "nosniff");
    ctx.header("Referrer-Policy", "no-referrer");
    ctx.header("Cross-Origin-Opener-Policy", "same-origin");
    ctx.header("Cross-Origin-Resource-Policy", "same-origin");
    if (ctx.path().startsWith("/api/")) {
      ctx.header("Cache-Control", "no-store");
    }
    String host = Optional.ofNullable(ctx.header("Host")).orElse("");
    if (!isLoopback("http://" + host)) {
      throw new ApiException(ApiError.FOREIGN, "This service answers on 127.0.0.1 only");
    }
    String origin = Optional.ofNullable(ctx.header("Origin")).orElse("");
    String site = Optional.ofNullable(ctx.header("Sec-Fetch-Site")).orElse("same-origin");
    boolean api = ctx.path().startsWith("/api/");
    boolean own = origin.isEmpty() || origin.equals("http://" + host);
    boolean near = site.equals("same-origin") || site.equals("none");
    if (!own || api && !near) {
      throw new ApiException(ApiError.FOREIGN, "The request comes from another site");
    }
  }

  private static boolean isLoopback(String address) {
    try {
      URI uri = URI.create(address);
      return uri.getHost() != null && LOOPBACK.contains(uri.getHost());
    } catch (IllegalArgumentException e) {
      return false;
    }
  }
}
