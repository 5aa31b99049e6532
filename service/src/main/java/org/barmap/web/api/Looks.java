package org.barmap.web.api;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.router.Endpoint;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.barmap.library.Library;
import org.barmap.web.access.Keys;
import org.barmap.web.access.PictureLog;
import org.barmap.web.access.Who;

/** Writes down who was given pictures of pages, and forgets what was about books that are gone. */
public record Looks(Library library, Keys keys, PictureLog log) {

  private static final String BOOK = "/api/books/{b}/";

  private static final Map<String, String> PICTURES =
      Map.of(
          BOOK + "pages/{p}/image", "image",
          BOOK + "pages/{p}/crop", "crop",
          BOOK + "iiif/{p}/full/{size}/0/default.jpg", "image",
          BOOK + "bars/{at}/image", "crop",
          BOOK + "sheets/{sheet}", "sheets",
          BOOK + "pack", "pack");

  /** Looks at every request after it was answered. */
  public void register(RoutesConfig routes) {
    forget();
    routes.afterMatched("/api/*", this::after);
  }

  private void after(Context ctx) {
    Endpoint route = ctx.endpoints().matchedHttpEndpoint();
    if (route == null || ctx.statusCode() >= 300) {
      return;
    }
    if (route.path.startsWith("/api/bin") && route.method.name().equals("DELETE")) {
      forget();
    }
    String what = PICTURES.getOrDefault(route.path, "");
    if (!what.isEmpty() && hasPictures(ctx, what)) {
      String[] parts = ctx.path().split("/");
      boolean named = parts[4].equals("pages") || parts[4].equals("iiif");
      String page = named ? parts[5] : "";
      Who who = Guard.whoAsks(ctx).orElseThrow();
      log.add(parts[3], who, page, what);
    }
  }

  /** Sheets and packed books are without pictures unless they were asked for. */
  private static boolean hasPictures(Context ctx, String what) {
    return switch (what) {
      case "pack" -> "true".equals(ctx.queryParam("pictures"));
      case "sheets" -> !"false".equals(ctx.queryParam("crops")) && ctx.path().endsWith("turns.pdf");
      default -> true;
    };
  }

  /** Links and lists go with the book they are about. */
  private void forget() {
    Set<String> there = new HashSet<>();
    library.books().all().forEach(book -> there.add(book.id()));
    library.books().bin().forEach(book -> there.add(book.id()));
    log.keepOnly(there::contains);
    keys.end(invite -> !there.contains(invite.book()));
  }
}
