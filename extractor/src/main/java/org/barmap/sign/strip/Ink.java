package org.barmap.sign.strip;

import org.barmap.sign.set.InkSettings;
import org.barmap.sign.set.SignSettings;

/** Shares of ink along straight paths of a strip. */
public final class Ink {

  private static final InkSettings SET = SignSettings.STANDARD.ink();

  private Ink() {}

  /** Tells whether a pixel is dark; above the strip the page is looked at. */
  public static boolean at(StripImage strip, int u, int v) {
    if (v < 0 && u >= 0 && u < strip.width()) {
      byte[] above = strip.above();
      int row = above.length / strip.width() + v;
      return row >= 0 && (above[row * strip.width() + u] & 0xff) < SET.dark();
    }
    return u >= 0
        && u < strip.width()
        && v >= 0
        && v < StripImage.HEIGHT
        && (strip.gray()[v * strip.width() + u] & 0xff) < SET.dark();
  }

  /** Returns the dark share of a column, 0 to 1. */
  public static double column(StripImage strip, int u, double from, double to) {
    int n = 0;
    int dark = 0;
    for (int v = (int) Math.ceil(from); v < to; v++, n++) {
      dark += at(strip, u, v) ? 1 : 0;
    }
    return n == 0 ? 0 : (double) dark / n;
  }

  /** Returns the dark share of a row, 0 to 1. */
  public static double row(StripImage strip, int v, double from, double to) {
    int n = 0;
    int dark = 0;
    for (int u = (int) Math.ceil(from); u < to; u++, n++) {
      dark += at(strip, u, v) ? 1 : 0;
    }
    return n == 0 ? 0 : (double) dark / n;
  }
}
