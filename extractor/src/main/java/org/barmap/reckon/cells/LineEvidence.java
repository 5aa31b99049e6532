package org.barmap.reckon.cells;

import java.util.List;
import java.util.Optional;
import org.barmap.reckon.set.CellSettings;
import org.barmap.reckon.set.ReckonSettings;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;

/**
 * What stands beside a line, which tells whether it is a barline.
 *
 * @param joined what the two cells beside it look like together; empty at the end of a line
 * @param beside width of the narrower of them, against the usual one of a bar with as many notes
 * @param off how many times the room that makes a sign in the middle of its bar stand off the
 *     middle of one of them is twice the width of a bar, below 0 for less; empty without such a
 *     sign
 * @param inside whether it stands within a thick rest bar
 * @param ones how many of the two cells beside it hold just one bar's worth
 * @param others how many hold something else
 * @param cut whether bars are cut in two there: at a repeat
 */
public record LineEvidence(
    Optional<GapEvidence> joined,
    double beside,
    Optional<Double> off,
    boolean inside,
    int ones,
    int others,
    boolean cut) {

  private static final CellSettings.Rooms SET = ReckonSettings.STANDARD.cells().rooms();

  /** What the words of all kinds of repeats begin with. */
  private static final String REPEAT = "repeat";

  /**
   * What stands beside a line; {@code onPage} is the usual width of a bar of music on its page,
   * {@code usual} the one on its line.
   */
  public static LineEvidence of(SystemCells cells, int line, double onPage, double usual) {
    boolean last = line + 1 == cells.lines().size();
    Optional<GapEvidence> joined =
        last ? Optional.empty() : Optional.of(GapEvidence.of(cells.without(line), line, onPage));
    Optional<Double> off = Optional.empty();
    int ones = 0;
    int others = 0;
    for (int c = line; c <= line + 1 && !last; c++) {
      List<Sign> whole = GapEvidence.whole(cells, c);
      Fill fill = cells.fill(c);
      ones += fill.bars() == Fill.Bars.ONE ? 1 : 0;
      others += fill.known() && fill.bars() != Fill.Bars.ONE ? 1 : 0;
      if (whole.size() == 1) {
        double o = GapEvidence.of(cells, c, onPage).octaves();
        off = Optional.of(Math.max(o, off.orElse(o)));
      }
    }
    return new LineEvidence(
        joined,
        Room.beside(cells, line, usual),
        off,
        Room.insideRest(cells, line),
        ones,
        others,
        repeats(cells.lines().get(line).sign()));
  }

  /** Tells whether a line is a repeat as likely as not: dots and a thick stroke are no stem. */
  private static boolean repeats(Sign line) {
    return line.readings().stream()
            .filter(r -> r.text().startsWith(REPEAT))
            .mapToDouble(Reading::probability)
            .sum()
        > SET.repeat();
  }

  /** Tells whether it is known what the cells beside it hold. */
  public boolean filled() {
    return joined.filter(g -> g.fill().known()).isPresent();
  }
}
