package org.barmap.plan.check;

import java.util.List;
import org.barmap.map.Bar;
import org.barmap.plan.piece.Piece;

/** Tells where a line begins: its key signature stands there in print. */
public final class LineStart {
  private LineStart() {}

  /** Tells whether a piece begins a line. */
  public static boolean at(List<Piece> pieces, int piece) {
    if (piece == 0) {
      return true;
    }
    Bar bar = pieces.get(piece).bar();
    Bar before = pieces.get(piece - 1).bar();
    return bar.page() != before.page() || bar.system() != before.system();
  }
}
