package org.barmap.web.api;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.barmap.library.Library;
import org.barmap.library.Replies;

/**
 * Makes an edit with an {@code Idempotency-Key} once only (as the IETF's draft of that header has
 * it): sent again it is answered with the revision that came of it, with {@code "repeated": true}.
 * The reply is kept after the edit: should the program end between the two, the edit sent again is
 * refused by its old {@code If-Match}, so it is never made twice.
 */
public final class Repeats {

  private static final String KEY = "Idempotency-Key";
  private static final Pattern KEYS = Pattern.compile("[\\w-]{16,64}");
  private static final int REFUSED_FROM = 300;

  private final Replies replies;

  private Repeats(Library library) {
    replies = library.replies();
  }

  /** Looks at every request that was let in, before and after it is answered. */
  public static void register(RoutesConfig routes, Library library) {
    Repeats repeats = new Repeats(library);
    routes.beforeMatched("/api/*", repeats::before);
    routes.after("/api/*", repeats::after);
  }

  private static Optional<String> key(Context ctx) {
    String key = ctx.header(KEY);
    if (key == null || ctx.method().name().equals("GET") || ctx.isMultipart()) {
      return Optional.empty();
    }
    if (!KEYS.matcher(key).matches()) {
      throw new ApiException(
          ApiError.BAD_REQUEST, "An Idempotency-Key is 16 to 64 letters, figures or -");
    }
    return Optional.of(key);
  }

  private void before(Context ctx) {
    Optional<String> key = key(ctx);
    if (key.isEmpty()) {
      return;
    }
    String asked = hash(ctx); // a body that is too large is refused before anything is made of it
    Optional<Replies.Reply> reply = replies.find(key.get());
    if (reply.isEmpty()) {
      return;
    }
    if (!reply.get().request().equals(asked)) {
      throw new ApiException(ApiError.KEY_USED, "Every edit needs a key of its own");
    }
    long revision = reply.get().revision();
    if (revision > 0) {
      Requests.etag(ctx, revision);
    }
    ctx.json(Map.of("repeated", true, "revision", revision));
    ctx.skipRemainingHandlers();
  }

  private void after(Context ctx) {
    if (ctx.statusCode() < REFUSED_FROM) {
      key(ctx).ifPresent(key -> replies.keep(key, new Replies.Reply(hash(ctx), revision(ctx))));
    }
  }

  private static long revision(Context ctx) {
    Long revision = ctx.attribute(Requests.REVISION);
    return revision == null ? 0 : revision;
  }

  private static String hash(Context ctx) {
    try {
      String request = ctx.method() + " " + ctx.path() + "\n" + ctx.body();
      byte[] bytes = request.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
