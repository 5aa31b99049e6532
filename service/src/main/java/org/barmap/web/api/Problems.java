package org.barmap.web.api;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import java.io.EOFException;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.FileSystemException;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.library.Replies;
import org.barmap.library.live.Away;
import org.barmap.library.picture.StoreAwayException;
import org.barmap.map.json.BadMapException;
import org.barmap.web.site.SitePages;
import org.barmap.work.ReadingStoppedException;
import org.eclipse.jetty.http.HttpException;
import org.jdbi.v3.core.JdbiException;
import tools.jackson.core.JacksonException;
import tools.jackson.core.exc.StreamReadException;

/** The one place where errors become answers. */
public final class Problems {

  /** As the systems say that there is no room. */
  private static final List<String> FULL =
      List.of("No space left", "File too large", "Read-only file system", "quota exceeded");

  /** A longer body may still be on its way when its request is answered, bytes. */
  private static final int READ_AT_ONCE = 16_384;

  private static final System.Logger LOG = System.getLogger(Problems.class.getName());

  /** Marks a request that has its answer, so that the handlers for bare statuses leave it alone. */
  private static final String ANSWERED = "barmap.answered";

  /** What a person is told who types an address without its key or scans an old code. */
  private static final Set<ApiError> SHUT =
      EnumSet.of(ApiError.NEEDS_KEY, ApiError.ENDED, ApiError.NOT_YOURS, ApiError.SLOW_DOWN);

  private Problems() {}

  /** Makes every exception an answer. */
  public static void register(RoutesConfig routes) {
    routes.exception(
        ApiException.class,
        (e, ctx) -> answer(ctx, e.error(), String.valueOf(e.getMessage()), e.extra()));
    routes.exception(
        JacksonException.class, (e, ctx) -> answer(ctx, ApiError.BAD_REQUEST, plain(e), Map.of()));
    routes.exception(
        BadMapException.class,
        (e, ctx) -> answer(ctx, ApiError.BAD_REQUEST, String.valueOf(e.getMessage()), Map.of()));
    routes.exception(JdbiException.class, (e, ctx) -> storage(ctx, e));
    routes.exception(IOException.class, (e, ctx) -> storage(ctx, e));
    routes.exception(UncheckedIOException.class, (e, ctx) -> storage(ctx, e));
    routes.exception(
        HttpResponseException.class,
        (e, ctx) -> answer(ctx, ofStatus(e.getStatus()), String.valueOf(e.getMessage()), Map.of()));
    routes.exception(
        ReadingStoppedException.class,
        (e, ctx) -> {
          ctx.header("Retry-After", "2");
          answer(ctx, ApiError.AWAY, "The service is being ended", Map.of());
        });
    routes.exception(
        Replies.TakenException.class,
        (e, ctx) -> {
          ctx.header("Retry-After", "2");
          answer(ctx, ApiError.AWAY, "An edit with this key is just being made", Map.of());
        });
    routes.exception(Exception.class, (e, ctx) -> unexpected(ctx, e));
    routes.error(404, "*", Problems::bare);
    routes.error(405, "*", Problems::bare);
  }

  /** Says where the request is wrong, in words of its own: the library's name classes. */
  private static String plain(JacksonException e) {
    if (e instanceof StreamReadException) {
      return "It is no JSON: " + e.getOriginalMessage();
    }
    String keys =
        e.getPath().stream()
            .map(JacksonException.Reference::getPropertyName)
            .filter(Objects::nonNull)
            .collect(Collectors.joining("."));
    return keys.isEmpty()
        ? "It is not the kind of JSON this address takes"
        : "The value of \"" + keys + "\" is not of the kind it has to be";
  }

  /** Returns the error for a status the server itself gave. */
  public static ApiError ofStatus(int status) {
    return switch (status) {
      case 404 -> ApiError.NOT_FOUND;
      case 405 -> ApiError.WRONG_METHOD;
      case 413 -> ApiError.TOO_LARGE;
      case 501, 505 -> ApiError.BAD_REQUEST; // a method or a version nobody knows
      default -> status < 500 ? ApiError.BAD_REQUEST : ApiError.INTERNAL;
    };
  }

  private static void bare(Context ctx) {
    if (ctx.attribute(ANSWERED) == null) {
      ApiError error = ofStatus(ctx.statusCode());
      answer(ctx, error, error.title(), Map.of());
    }
  }

  /** Tells whether it was answered already: nothing here failed, or the store is away. */
  private static boolean isAnswered(Context ctx, Exception e) {
    if (isAway(ctx, e)) {
      return true;
    }
    if (isTooLarge(e)) {
      answer(ctx, ApiError.TOO_LARGE, "A file may have up to 200 MB", Map.of());
      return true;
    }
    if (isBrokenOff(e)) {
      answer(ctx, ApiError.BAD_REQUEST, "What was sent breaks off; send it again", Map.of());
      return true;
    }
    return false;
  }

  /** Tells whether it was said that the store is away; its line can break off as a request does. */
  private static boolean isAway(Context ctx, Exception e) {
    boolean away = Away.is(e) || hasCause(e, StoreAwayException.class);
    if (away) {
      LOG.log(System.Logger.Level.WARNING, "the store is away", e);
      ctx.header("Retry-After", "2");
      String what = "The database, or what keeps the pictures, does not answer";
      answer(ctx, ApiError.AWAY, what, Map.of());
    }
    return away;
  }

  private static void storage(Context ctx, Exception e) {
    if (isAnswered(ctx, e)) {
      return;
    }
    LOG.log(System.Logger.Level.WARNING, "the store or the disk failed a request", e);
    answer(ctx, ApiError.STORAGE, ApiError.STORAGE.title(), Map.of());
  }

  private static void unexpected(Context ctx, Exception e) {
    if (isAnswered(ctx, e)) {
      return;
    }
    if (hasCause(e, IOException.class) || hasCause(e, JdbiException.class) || isOfTheDisk(e)) {
      storage(ctx, e);
      return;
    }
    LOG.log(System.Logger.Level.ERROR, "failed: {0} {1}", ctx.method(), ctx.path());
    LOG.log(System.Logger.Level.ERROR, "a request failed", e);
    answer(ctx, ApiError.INTERNAL, ApiError.INTERNAL.title(), Map.of());
  }

  /** Tells whether the server refused a multipart body for its size; it says so only in words. */
  public static boolean isTooLarge(Throwable e) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      String text = String.valueOf(t.getMessage());
      if (text.contains("max length exceeded")
          || text.contains("max file size")
          || text.contains("exceeds")
          || text.contains("Request too large")) {
        return true;
      }
    }
    return false;
  }

  /** Tells whether the disk is full, or files can't be written. */
  public static boolean isOfTheDisk(Throwable e) {
    return hasCause(e, FileSystemException.class)
        || hasCause(e, FileNotFoundException.class)
        || Stream.iterate(e, t -> t != null, Throwable::getCause)
            .map(t -> String.valueOf(t.getMessage()))
            .anyMatch(text -> FULL.stream().anyMatch(text::contains));
  }

  /** Tells whether the request itself came to an end too early, or not within its time. */
  private static boolean isBrokenOff(Throwable e) {
    return !isOfTheDisk(e) && (hasCause(e, EOFException.class) || hasCause(e, HttpException.class));
  }

  private static boolean hasCause(Throwable e, Class<?> type) {
    for (Throwable t = e; t != null; t = t.getCause()) {
      if (type.isInstance(t)) {
        return true;
      }
    }
    return false;
  }

  /** Tells whether a person typed the address: a browser asks for a page, outside the API. */
  private static boolean isForReading(Context ctx) {
    String accepted = ctx.header("Accept");
    return accepted != null && accepted.contains("text/html") && !ctx.path().startsWith("/api");
  }

  /** Returns the members every answer has (RFC 9457). */
  static Map<String, Object> problem(ApiError error, int status, String detail) {
    Map<String, Object> problem = new LinkedHashMap<>();
    problem.put("type", "about:blank");
    problem.put("title", error.title());
    problem.put("status", status);
    problem.put("detail", detail);
    problem.put("code", error.name());
    return problem;
  }

  /** Writes the answer (RFC 9457). */
  public static void answer(Context ctx, ApiError error, String detail, Map<String, Object> extra) {
    Map<String, Object> problem = problem(error, error.status(), detail);
    problem.putAll(extra);
    ctx.attribute(ANSWERED, true);
    ctx.status(error.status());
    if (sentMuch(ctx)) {
      // what is left of it is not read, and whoever sent on over this connection would find it shut
      ctx.header("Connection", "close");
    }
    if (error.status() == 401) {
      ctx.header("WWW-Authenticate", "Bearer");
    }
    if (isForReading(ctx) && error == ApiError.NOT_FOUND) {
      ctx.html(SitePages.nowhere());
      return;
    }
    if (isForReading(ctx) && SHUT.contains(error)) {
      ctx.html(SitePages.shut(error.title(), detail));
      return;
    }
    ctx.json(problem);
    ctx.contentType("application/problem+json");
  }

  /** Tells whether a request's body may not have been read to its end. */
  private static boolean sentMuch(Context ctx) {
    return ctx.req().getContentLengthLong() > READ_AT_ONCE
        || ctx.req().getHeader("Transfer-Encoding") != null;
  }
}
