package org.barmap.web.feed;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import org.barmap.edit.between.MapChange;
import org.barmap.edit.between.MapChanges;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Editions;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.barmap.web.api.ApiException;
import org.barmap.web.api.Requests;
import org.barmap.web.api.Validators;

/** A book's editions: a checked map that never changes, and what changed between two of them. */
public final class EditionRoutes {

  private static final String LATEST = "latest";
  private static final int LETTERS_OF_TAG = 32;
  private static final int REMEMBERED = 16;

  private final Library library;

  /** What changed between editions, by their documents: both stay as they are. */
  private final Map<String, Changed> lately =
      new LinkedHashMap<>(16, 0.75f, true) {
        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Changed> eldest) {
          return size() > REMEMBERED;
        }
      };

  public EditionRoutes(Library library) {
    this.library = library;
  }

  /** Adds them to the server. */
  public void register(RoutesConfig routes) {
    routes.get("/api/books/{b}/editions", this::all);
    routes.post("/api/books/{b}/editions", this::make);
    routes.get("/api/books/{b}/editions/{n}", this::one);
    routes.get("/api/books/{b}/editions/{n}/changes", this::changes);
  }

  /** What changed from one edition to another. */
  private record Changed(int from, int to, List<MapChange> changes) {}

  private void all(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    Map<String, Object> answer = new LinkedHashMap<>();
    answer.put("revision", book.revision());
    answer.put("checked", book.isVerified());
    editions()
        .correctionsSince(book.id())
        .ifPresent(since -> answer.put("correctionsSince", since));
    editions()
        .latest(book.id())
        .ifPresent(latest -> answer.put("changedSince", latest.revision() != book.revision()));
    answer.put("editions", editions().all(book.id()));
    ctx.json(answer);
  }

  private Editions editions() {
    return library.feed().editions();
  }

  private void make(Context ctx) {
    BookCard book = Requests.book(library, ctx);
    long revision = Requests.revision(ctx);
    String who = ctx.body().isBlank() ? "" : Requests.text(Requests.body(ctx), "who", 80);
    Editions.Making making = editions().make(book.id(), revision, who);
    if (making instanceof Editions.Making.Stale stale) {
      throw new ApiException(
          ApiError.STALE,
          "You saw an older revision; load it again",
          Map.of("revision", stale.current()));
    }
    if (making instanceof Editions.Making.Refused refused) {
      throw new ApiException(ApiError.REFUSED, refused.reason());
    }
    Editions.Making.Made made = (Editions.Making.Made) making;
    ctx.status(made.fresh() ? 201 : 200);
    ctx.header("Location", address(book.id(), made.edition()));
    Requests.etag(ctx, revision);
    ctx.json(Map.of("edition", made.edition(), "fresh", made.fresh()));
  }

  private static String address(String book, Edition edition) {
    return "/api/books/" + book + "/editions/" + edition.number();
  }

  /** Returns the edition that an address names. */
  private Edition edition(Context ctx, String number) {
    String book = ctx.pathParam("b");
    Optional<Edition> found =
        number.equals(LATEST)
            ? editions().latest(book)
            : number.matches("[1-9]\\d{0,8}")
                ? editions().find(book, Integer.parseInt(number))
                : Optional.empty();
    return found.orElseThrow(
        () -> {
          Requests.book(library, ctx);
          return new ApiException(
              ApiError.NO_EDITION,
              number.equals(LATEST)
                  ? "It gets its first one when all its pages are checked"
                  : "Look which ones there are");
        });
  }

  private void one(Context ctx) {
    Edition edition = edition(ctx, ctx.pathParam("n"));
    boolean latest = ctx.pathParam("n").equals(LATEST);
    String tag = edition.sha256().substring(0, LETTERS_OF_TAG);
    boolean gzip = Validators.takesGzip(ctx);
    ctx.header("Cache-Control", latest ? Validators.ASK_AGAIN : Validators.FOR_EVER);
    ctx.header("Vary", "Accept-Encoding");
    ctx.header("ETag", '"' + tag + (gzip ? "-gzip" : "") + '"');
    if (latest) {
      ctx.header("Content-Location", address(ctx.pathParam("b"), edition));
    }
    if (Validators.has(ctx, tag, tag + "-gzip")) {
      ctx.status(304);
      return;
    }
    byte[] packed = packed(ctx, edition);
    byte[] sent = gzip ? packed : unpacked(packed);
    if (gzip) {
      ctx.header("Content-Encoding", "gzip");
    }
    ctx.contentType("application/json");
    ctx.header("Content-Length", Integer.toString(sent.length));
    ctx.result(sent);
  }

  private byte[] packed(Context ctx, Edition edition) {
    return editions()
        .packed(ctx.pathParam("b"), edition.number())
        .orElseThrow(() -> new ApiException(ApiError.NO_BOOK, "It may be in the bin"));
  }

  private static byte[] unpacked(byte[] packed) {
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(packed))) {
      return in.readAllBytes();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void changes(Context ctx) {
    Edition to = edition(ctx, ctx.pathParam("n"));
    String since =
        Optional.ofNullable(ctx.queryParam("since"))
            .orElseGet(() -> Integer.toString(to.number() - 1));
    Edition from = edition(ctx, since);
    if (from.number() > to.number()) {
      throw new ApiException(ApiError.REFUSED, "Name an earlier edition as since");
    }
    boolean latest = ctx.pathParam("n").equals(LATEST) || since.equals(LATEST);
    String tag =
        from.sha256().substring(0, LETTERS_OF_TAG) + to.sha256().substring(0, LETTERS_OF_TAG);
    ctx.header("Cache-Control", latest ? Validators.ASK_AGAIN : Validators.FOR_EVER);
    ctx.header("ETag", '"' + tag + '"');
    if (Validators.has(ctx, tag)) {
      ctx.status(304);
      return;
    }
    ctx.json(changed(ctx, from, to, tag));
  }

  private Changed changed(Context ctx, Edition from, Edition to, String tag) {
    synchronized (lately) {
      Changed known = lately.get(tag);
      if (known != null) {
        return new Changed(from.number(), to.number(), known.changes);
      }
    }
    List<MapChange> changes = MapChanges.between(map(packed(ctx, from)), map(packed(ctx, to)));
    Changed made = new Changed(from.number(), to.number(), changes);
    synchronized (lately) {
      lately.put(tag, made);
    }
    return made;
  }

  private static BarMap map(byte[] packed) {
    return BarMapJson.mapper().readValue(unpacked(packed), BarMap.class);
  }
}
