package org.barmap.web.api;

import io.javalin.http.Context;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;

/** What says whether somebody has something already (RFC 9110, 8.8 and 13.1.2). */
public final class Validators {

  /** Nobody else may keep it; whoever asked may, and need not ask again. */
  public static final String FOR_EVER = "private, max-age=31536000, immutable";

  /** Whoever asked may keep it, and asks each time whether it is still the same. */
  public static final String ASK_AGAIN = "private, no-cache";

  private Validators() {}

  /**
   * Tells whether who asks has one of these already; comparing is weak, as this header asks for.
   *
   * @param tags without quotes; of one thing in several codings
   */
  public static boolean has(Context ctx, String... tags) {
    String known = Optional.ofNullable(ctx.header("If-None-Match")).orElse("");
    return Arrays.stream(known.split(","))
        .map(String::strip)
        .map(tag -> tag.startsWith("W/") ? tag.substring(2) : tag)
        .anyMatch(
            tag -> tag.equals("*") || Arrays.stream(tags).anyMatch(t -> tag.equals('"' + t + '"')));
  }

  /** Tells whether gzip may be sent. */
  public static boolean takesGzip(Context ctx) {
    String takes = Optional.ofNullable(ctx.header("Accept-Encoding")).orElse("");
    return Arrays.stream(takes.toLowerCase(Locale.ROOT).split(","))
        .map(coding -> coding.replace(" ", ""))
        .anyMatch(
            coding ->
                coding.equals("gzip")
                    || coding.startsWith("gzip;q=") && !coding.matches("gzip;q=0(\\.0*)?"));
  }
}
