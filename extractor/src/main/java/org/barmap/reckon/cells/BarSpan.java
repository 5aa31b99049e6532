package org.barmap.reckon.cells;

import java.util.List;
import java.util.Optional;
import org.barmap.sign.kind.Sign;

/**
 * One bar of the settled book, before its attributes are filled in.
 *
 * @param system index into the lattice's systems
 * @param from left side, staff spaces along the staff
 * @param to right side
 * @param number of its first bar
 * @param lettered the letter-carrying text it is called, "24A"
 * @param count how many bars it stands for
 * @param rest the rest that stands in it
 * @param countChoice how sure its count is; 1 where no rest stands in it
 * @param otherCount the next most likely count, or 0
 * @param lines probability that the barlines around it and none inside it are as drawn here
 * @param end the barline at its right side; empty where one was inferred
 * @param endProbability how likely that barline is one
 * @param inferred true when a barline was missed in it and the place is a guess
 * @param anchors printed numbers at its start
 * @param numberProbability probability of its number
 */
public record BarSpan(
    int system,
    double from,
    double to,
    int number,
    Optional<String> lettered,
    int count,
    Optional<RestEvidence> rest,
    double countChoice,
    int otherCount,
    double lines,
    Optional<Sign> end,
    double endProbability,
    boolean inferred,
    List<Sign> anchors,
    double numberProbability) {

  /** Width in staff spaces. */
  double width() {
    return to - from;
  }
}
