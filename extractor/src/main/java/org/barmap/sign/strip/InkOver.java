package org.barmap.sign.strip;

import java.util.List;
import org.barmap.sign.set.InkSettings;
import org.barmap.sign.set.SignSettings;

/** The ink over a staff, up to the staff above or the page's edge, in connected pieces. */
public final class InkOver {

  private static final InkSettings SET = SignSettings.STANDARD.ink();

  private InkOver() {}

  /** Finds the pieces of ink in the room over a staff. */
  static List<InkPiece> pieces(StripImage strip) {
    int middle = 2 * StripImage.MIDDLE;
    int bottom = (int) (middle - SET.over().staff() * StripImage.FINE);
    int top = (int) Math.max(-strip.fineAbove(), middle - strip.room() * StripImage.FINE);
    if (bottom - top < SET.over().least() * StripImage.FINE) {
      return List.of();
    }
    int width = 2 * strip.width();
    // Notes and slurs of the staff reach over the edge.
    return InkPieces.of(strip.rough(0, top, width, bottom), width, SET.dark()).stream()
        .filter(p -> p.y() + p.h() < bottom - top)
        .map(p -> p.lower(top))
        .toList();
  }
}
