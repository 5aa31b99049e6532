package org.barmap.sign.strip;

import java.util.List;
import org.barmap.sign.kind.Origin;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;
import org.barmap.sign.set.SignSettings;

/**
 * One connected piece of ink: its box, pixels of the image looked at, and how many of its pixels
 * are dark. Negative rows lie above the image.
 */
public record InkPiece(int x, int y, int w, int h, int area) {

  private static final double LETTER = SignSettings.STANDARD.ink().over().letter();

  /** Returns it so many rows farther down. */
  public InkPiece lower(int rows) {
    return new InkPiece(x, y + rows, w, h, area);
  }

  /** Tells whether another piece stands in this one as a letter in its frame: O and D are empty. */
  public boolean holds(InkPiece o) {
    boolean within = o.x > x && o.y > y && o.x + o.w < x + w && o.y + o.h < y + h;
    return within && o.h > LETTER * h;
  }

  /** Returns how many rows two pieces share; negative where they stand over each other. */
  public int common(InkPiece o) {
    return Math.min(y + h, o.y + o.h) - Math.max(y, o.y);
  }

  /** Returns the box around both. */
  public InkPiece union(InkPiece o) {
    int left = Math.min(x, o.x);
    int top = Math.min(y, o.y);
    return new InkPiece(
        left,
        top,
        Math.max(x + w, o.x + o.w) - left,
        Math.max(y + h, o.y + o.h) - top,
        area + o.area);
  }

  /** Returns a piece of the finer strip as a sign of a kind, in pixels of the strip. */
  public RawSign sign(SignKind kind, double probability, Origin origin) {
    double top = y;
    return new RawSign(
        kind, x / 2.0, top / 2, (x + w) / 2.0, (top + h) / 2, probability, List.of(), origin);
  }
}
