package org.barmap.plan.oracle;

import java.util.List;
import org.barmap.plan.cases.Ask;
import org.barmap.plan.cases.CaseRunner;
import org.barmap.plan.cases.TradeCase;

/**
 * What the planner's answer to a case is worth.
 *
 * @param word {@code right}, {@code wrong} or {@code unanswered}
 * @param says what differs, or why there is no answer
 */
record CaseVerdict(String word, String says) {

  static final String RIGHT = "right";
  static final String WRONG = "wrong";
  static final String UNANSWERED = "unanswered";

  /** What is in the player's hands is only told where it changes. */
  private static final String HANDS_UNTOLD = ".*/(bow|mute|instrument): nothing is said, .*";

  static CaseVerdict of(TradeCase row) {
    if (Unsaid.in(row)) {
      return new CaseVerdict(UNANSWERED, "expects something the planner never says");
    }
    List<String> differences;
    try {
      differences = new CaseRunner(new PlannerAnswers()).run(row);
    } catch (NoAnswer e) {
      return new CaseVerdict(UNANSWERED, String.valueOf(e.getMessage()));
    } catch (RuntimeException e) {
      return new CaseVerdict(WRONG, "threw " + e);
    }
    if (differences.isEmpty()) {
      return new CaseVerdict(RIGHT, "");
    }
    boolean untold =
        row.ask() == Ask.STATE && differences.stream().allMatch(d -> d.matches(HANDS_UNTOLD));
    return new CaseVerdict(untold ? UNANSWERED : WRONG, String.join("; ", differences));
  }
}
