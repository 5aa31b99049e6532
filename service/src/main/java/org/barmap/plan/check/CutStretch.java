package org.barmap.plan.check;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.Pieces;
import org.barmap.plan.piece.Span;

/**
 * Bars cut in a row, by one change or several that touch.
 *
 * @param change the first of the changes
 * @param first index of the first piece cut, wholly or in part
 * @param last index of the last piece cut, wholly or in part
 */
public record CutStretch(ShowChange change, int first, int last) {

  /** Returns the stretches cut from a number. */
  public static List<CutStretch> of(List<Piece> pieces, List<Span> spans) {
    List<CutStretch> stretches = new ArrayList<>();
    int i = 0;
    while (i < pieces.size()) {
      if (!touched(pieces.get(i))) {
        i++;
        continue;
      }
      int from = i;
      while (i + 1 < pieces.size()
          && touched(pieces.get(i + 1))
          && !(pieces.get(i).cutMiddle() > 0)
          && pieces.get(i + 1).cutEnd() + pieces.get(i + 1).cutMiddle() == 0
          && pieces.get(i).endCut()) {
        i++;
      }
      stretches.add(new CutStretch(change(pieces, from, spans), from, i));
      i++;
    }
    return stretches;
  }

  private static boolean touched(Piece piece) {
    return piece.cut() || piece.beatsCut() > 0;
  }

  private static ShowChange change(List<Piece> pieces, int piece, List<Span> spans) {
    for (Span span : spans) {
      if (span.effects().leavesOut()
          && piece >= Pieces.first(pieces, span)
          && piece <= Pieces.last(pieces, span)) {
        return span.change();
      }
    }
    throw new IllegalStateException("a piece is cut that no cut names");
  }

  /** Returns the index of the last piece of which something is played before it; may be -1. */
  int leaves(List<Piece> pieces) {
    Piece piece = pieces.get(first);
    boolean begun = !piece.cut() && piece.cutEnd() + piece.cutMiddle() > 0;
    return begun ? first : first - 1;
  }

  /** Returns the index of the piece where one lands; that of the bar behind it may be no piece. */
  public int lands(List<Piece> pieces) {
    Piece piece = pieces.get(last);
    boolean inside = !piece.cut() && piece.cutStart() + piece.cutMiddle() > 0;
    return inside ? last : last + 1;
  }

  /** Tells whether a piece lies in it. */
  boolean holds(int piece) {
    return piece >= first && piece <= last;
  }
}
