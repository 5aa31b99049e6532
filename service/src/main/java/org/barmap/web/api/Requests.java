package org.barmap.web.api;

import io.javalin.http.Context;
import java.util.Map;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Takes out of requests what routes need, or ends them with the right error. */
public final class Requests {

  /** Under which attribute of a request the revision is found that it was answered with. */
  static final String REVISION = "barmap.revision";

  private Requests() {}

  /** Returns the book a request names. */
  public static BookCard book(Library library, Context ctx) {
    String id = ctx.pathParam("b");
    return library
        .books()
        .find(id)
        .orElseThrow(() -> new ApiException(ApiError.NO_BOOK, "It may be in the bin"));
  }

  /** Returns the page a request names. */
  public static PageCard page(Library library, Context ctx) {
    BookCard book = book(library, ctx);
    return library
        .pages()
        .find(book.id(), ctx.pathParam("p"))
        .orElseThrow(() -> new ApiException(ApiError.NO_PAGE, "It may have been taken out"));
  }

  /** Returns the draft of the book a request names. */
  public static Versioned<Draft> draft(Library library, Context ctx) {
    return library
        .drafts()
        .find(book(library, ctx).id())
        .orElseThrow(() -> new ApiException(ApiError.NO_BOOK, "It may be in the bin"));
  }

  /** Returns the revision named by If-Match. */
  public static long revision(Context ctx) {
    String match = Optional.ofNullable(ctx.header("If-Match")).orElse("").strip();
    if (match.isEmpty()) {
      throw new ApiException(ApiError.NEEDS_REVISION, ApiError.NEEDS_REVISION.title());
    }
    if (match.startsWith("W/")) {
      // RFC 9110, 13.1.1: a weak tag never matches
      throw new ApiException(ApiError.STALE, "Send the ETag as it was given, without W/");
    }
    String digits = match.replace("\"", "");
    try {
      return Long.parseLong(digits);
    } catch (NumberFormatException e) {
      throw new ApiException(ApiError.BAD_REQUEST, "If-Match holds no revision");
    }
  }

  /** Returns the body, which must be a JSON object. */
  public static ObjectNode body(Context ctx) {
    JsonNode tree = BarMapJson.mapper().readTree(BarMapJson.withoutMark(ctx.body()));
    if (tree instanceof ObjectNode object) {
      return object;
    }
    throw new ApiException(ApiError.BAD_REQUEST, "The body must be a JSON object");
  }

  /**
   * Makes what a part of a body says. A number with a fraction where a whole one has to be is no
   * number that was meant, and refused: nothing is cut off.
   */
  public static <T> T read(JsonNode said, Class<T> type) {
    return BarMapJson.mapper()
        .readerFor(type)
        .without(DeserializationFeature.ACCEPT_FLOAT_AS_INT)
        .readValue(said);
  }

  /** Returns a text of a body, cut to a length; empty when absent. */
  public static String text(ObjectNode body, String key, int length) {
    JsonNode value = body.path(key);
    if (!value.isString() && !value.isNull() && !value.isMissingNode()) {
      throw new ApiException(ApiError.BAD_REQUEST, "\"" + key + "\" has to be a text");
    }
    String text = value.asString("").strip();
    return text.length() > length ? text.substring(0, length) : text;
  }

  /** Returns a number of a query, within bounds; empty when absent. */
  public static Optional<Integer> number(Context ctx, String key, int from, int to) {
    String text = ctx.queryParam(key);
    if (text == null) {
      return Optional.empty();
    }
    try {
      return Optional.of(Math.max(from, Math.min(to, Integer.parseInt(text))));
    } catch (NumberFormatException e) {
      throw new ApiException(ApiError.BAD_REQUEST, key + " must be a whole number");
    }
  }

  /** Returns what was saved, or ends the request with why it was not. */
  public static <T> Saved.Done<T> done(Saved<T> saved) {
    return saved.orElseThrow(
        current ->
            new ApiException(
                ApiError.STALE,
                "You saw an older revision; load it again",
                Map.of("revision", current)),
        reasons ->
            new ApiException(
                ApiError.REFUSED, String.join(". ", reasons), Map.of("reasons", reasons)));
  }

  /** Sets the ETag to a revision. */
  public static void etag(Context ctx, long revision) {
    ctx.header("ETag", "\"" + revision + "\"");
    ctx.attribute(REVISION, revision);
  }
}
