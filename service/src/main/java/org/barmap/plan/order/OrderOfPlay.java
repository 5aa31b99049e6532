package org.barmap.plan.order;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.PlanFinding;
import org.barmap.plan.change.WrittenNumber;
import org.barmap.plan.piece.Piece;
import org.barmap.plan.piece.PlayedPiece;

/**
 * One number in the order it sounds.
 *
 * @param number as written
 * @param pieces the number in pieces, in reading order, what is cut marked
 * @param steps in the order they sound
 * @param passedBars bars left out on the way, over all passes
 * @param passed the pieces left out on the way, in the order they were passed
 * @param passedOnce what is left out in one pass only, in the order it was passed
 * @param repeats the printed repeats, by the pieces they cover
 * @param open vamps and safeties
 * @param findings about the form and the changes
 */
public record OrderOfPlay(
    WrittenNumber number,
    List<Piece> pieces,
    List<PlayedPiece> steps,
    int passedBars,
    List<Piece> passed,
    List<PlayedPiece> passedOnce,
    List<Loop> repeats,
    List<OpenStretch> open,
    List<PlanFinding> findings) {

  /** Takes defensive copies. */
  public OrderOfPlay {
    pieces = List.copyOf(pieces);
    steps = List.copyOf(steps);
    passed = List.copyOf(passed);
    passedOnce = List.copyOf(passedOnce);
    repeats = List.copyOf(repeats);
    open = List.copyOf(open);
    findings = List.copyOf(findings);
  }

  /** Returns the same order with more findings. */
  OrderOfPlay withFindings(List<PlanFinding> more) {
    List<PlanFinding> all = new ArrayList<>(findings);
    all.addAll(more);
    return new OrderOfPlay(
        number, pieces, steps, passedBars, passed, passedOnce, repeats, open, all);
  }

  /** Returns how many bars are played, pickups not counted. */
  public int playedBars() {
    return steps.stream().mapToInt(s -> s.piece().bars()).sum();
  }
}
