package org.barmap.sign.strip;

import java.util.List;
import org.barmap.sign.kind.RawSign;
import org.barmap.sign.kind.SignKind;

/** The ink over a staff, up to the staff above or the page's edge, in connected pieces. */
public final class InkOver {

  private static final int DARK = 140;

  /** Pixels a space in the finer strip. */
  private static final int FINE = 2 * StripImage.SPACE;

  /** Ink nearer to the middle line than this is the staff's, spaces. */
  private static final double OVER_STAFF = 2.4;

  private InkOver() {}

  /** A connected piece of ink, pixels of the finer strip; negative ones lie above it. */
  public record Piece(int x, int y, int w, int h, int area) {

    /**
     * Tells whether another piece stands in this one as a letter in its frame: O and D are empty.
     */
    public boolean holds(Piece o) {
      boolean within = o.x > x && o.y > y && o.x + o.w < x + w && o.y + o.h < y + h;
      return within && o.h > 0.3 * h;
    }

    /** Returns it as a sign of a kind, in pixels of the strip. */
    public RawSign sign(SignKind kind, double probability) {
      double top = y;
      return new RawSign(
          kind, x / 2.0, top / 2, (x + w) / 2.0, (top + h) / 2, probability, List.of());
    }
  }

  /** Finds the pieces of ink in the room over a staff. */
  static List<Piece> pieces(StripImage strip) {
    int middle = 2 * StripImage.MIDDLE;
    int bottom = (int) (middle - OVER_STAFF * FINE);
    int top = (int) Math.max(-strip.fineAbove(), middle - strip.room() * FINE);
    if (bottom - top < 2 * FINE) {
      return List.of();
    }
    int width = 2 * strip.width();
    // Notes and slurs of the staff reach over the edge.
    return InkPieces.of(strip.rough(0, top, width, bottom), width, DARK).stream()
        .filter(p -> p.y() + p.h() < bottom - top)
        .map(p -> new Piece(p.x(), p.y() + top, p.w(), p.h(), p.area()))
        .toList();
  }
}
