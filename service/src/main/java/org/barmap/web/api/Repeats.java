package org.barmap.web.api;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.library.Library;
import org.barmap.library.Replies;

/**
 * Makes an edit with an {@code Idempotency-Key} once only (as the IETF's draft of that header has
 * it): sent again it is answered with the revision that came of it, with {@code "repeated": true}.
 * The key is kept in the edit's own transaction ({@link Replies#begin}): should the program end at
 * any moment after that, the edit is known to be made; two programs on one database never make it
 * both.
 *
 * <p>Whoever took an edit back without hearing whether it had come asks by its key: made, or never
 * to be made.
 */
public final class Repeats {

  private static final String KEY = "Idempotency-Key";
  private static final Pattern KEYS = Pattern.compile("[\\w-]{16,64}");
  private static final Pattern BOOK = Pattern.compile("/api/books/([^/]+)");

  /** Between the hash of a request and its book. */
  private static final String OF = "@";

  private static final int REFUSED_FROM = 300;

  private static final String MAKING = "barmap.making";

  private final Library library;
  private final Replies replies;

  /** Keys of edits that are being made, and of those that are being withdrawn: never both. */
  private final Set<String> making = ConcurrentHashMap.newKeySet();

  private final Set<String> withdrawing = ConcurrentHashMap.newKeySet();

  private Repeats(Library library) {
    this.library = library;
    replies = library.replies();
  }

  /** Looks at every request that was let in, before and after it is answered. */
  public static void register(RoutesConfig routes, Library library) {
    Repeats repeats = new Repeats(library);
    routes.beforeMatched("/api/*", repeats::before);
    routes.after("/api/*", repeats::after);
    routes.delete("/api/books/{b}/edits/{e}", repeats::withdraw);
  }

  private static Optional<String> key(Context ctx) {
    String key = ctx.header(KEY);
    if (key == null || ctx.method().name().equals("GET") || ctx.isMultipart()) {
      return Optional.empty();
    }
    return Optional.of(checked(key));
  }

  private static String checked(String key) {
    if (!KEYS.matcher(key).matches()) {
      throw new ApiException(
          ApiError.BAD_REQUEST, "An Idempotency-Key is 16 to 64 letters, figures or -");
    }
    return key;
  }

  private void before(Context ctx) {
    Optional<String> key = key(ctx);
    if (key.isEmpty()) {
      return;
    }
    String asked = hash(ctx); // a body that is too large is refused before anything is made of it
    begin(ctx, key.get());
    Optional<Replies.Reply> reply = replies.find(key.get());
    if (reply.isEmpty()) {
      replies.begin(key.get(), asked + OF + book(ctx));
      return;
    }
    if (reply.get().isWithdrawn()) {
      throw new ApiException(ApiError.KEY_USED, "This edit was taken back before it came");
    }
    if (!(reply.get().request() + OF).startsWith(asked + OF)) {
      throw new ApiException(ApiError.KEY_USED, "Every edit needs a key of its own");
    }
    long revision = reply.get().revision();
    if (revision > 0) {
      Requests.etag(ctx, revision);
    }
    ctx.json(Map.of("repeated", true, "revision", revision));
    end(ctx);
    ctx.skipRemainingHandlers();
  }

  /** Says that an edit is being made before it is looked for, as {@link #withdraw} does. */
  private void begin(Context ctx, String key) {
    if (making.add(key)) {
      ctx.attribute(MAKING, key);
    }
    if (ctx.attribute(MAKING) == null || withdrawing.contains(key)) {
      end(ctx);
      throw new ApiException(ApiError.AWAY, "An edit with this key is just being made");
    }
  }

  private void end(Context ctx) {
    String key = ctx.attribute(MAKING);
    if (key != null) {
      ctx.attribute(MAKING, null); // once only: the key may be another request's by then
      making.remove(key);
      replies.end();
    }
  }

  private void after(Context ctx) {
    try {
      if (ctx.statusCode() < REFUSED_FROM) {
        key(ctx)
            .ifPresent(
                key ->
                    replies.keep(
                        key, new Replies.Reply(hash(ctx) + OF + book(ctx), revision(ctx))));
      }
    } finally {
      end(ctx);
    }
  }

  private void withdraw(Context ctx) {
    Requests.book(library, ctx);
    String key = checked(ctx.pathParam("e"));
    withdrawing.add(key);
    try {
      if (making.contains(key)) {
        throw new ApiException(ApiError.AWAY, "This edit is just being made");
      }
      Optional<Replies.Reply> made = replies.withdraw(key);
      if (made.filter(r -> !isOf(book(ctx), r)).isPresent()) {
        throw new ApiException(ApiError.KEY_USED, "This key is not that of an edit of this book");
      }
      long revision = made.map(Replies.Reply::revision).orElse(0L);
      ctx.json(Map.of("made", made.isPresent(), "revision", revision));
    } finally {
      withdrawing.remove(key);
    }
  }

  /** Returns the book that a request is about; empty where it is about none. */
  private static String book(Context ctx) {
    Matcher matcher = BOOK.matcher(ctx.path());
    return matcher.lookingAt() ? matcher.group(1) : "";
  }

  /** Of a reply that was kept before books were noted with them nobody knows: it is let pass. */
  private static boolean isOf(String book, Replies.Reply reply) {
    return !reply.request().contains(OF) || reply.request().endsWith(OF + book);
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
