package org.barmap.reckon;

import java.util.List;
import java.util.Optional;
import org.barmap.sign.Sign;

/**
 * What stands beside a line, which tells whether it is a barline.
 *
 * @param joined what the two cells beside it look like together; empty at the end of a line
 * @param beside width of the narrower of them, against the usual one
 * @param off how many times the room that makes a sign in the middle of its bar stand off the
 *     middle of one of them is twice the width of a bar, below 0 for less; empty without such a
 *     sign
 * @param inside whether it stands within a thick rest bar
 */
record LineEvidence(
    Optional<GapEvidence> joined, double beside, Optional<Double> off, boolean inside) {

  /**
   * What stands beside a line; {@code onPage} is the usual width of a bar of music on its page,
   * {@code usual} the one on its line.
   */
  static LineEvidence of(SystemCells cells, int line, double onPage, double usual) {
    boolean last = line + 1 == cells.lines().size();
    Optional<GapEvidence> joined =
        last ? Optional.empty() : Optional.of(GapEvidence.of(cells.without(line), line, onPage));
    Optional<Double> off = Optional.empty();
    for (int c = line; c <= line + 1 && !last; c++) {
      List<Sign> whole = GapEvidence.whole(cells, c);
      if (whole.size() == 1) {
        double o = GapEvidence.of(cells, c, onPage).octaves();
        off = Optional.of(Math.max(o, off.orElse(o)));
      }
    }
    return new LineEvidence(
        joined, Room.beside(cells, line, usual), off, Room.insideRest(cells, line));
  }
}
