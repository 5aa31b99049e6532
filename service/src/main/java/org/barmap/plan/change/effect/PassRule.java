package org.barmap.plan.change.effect;

import java.util.Optional;
import org.barmap.plan.change.term.Pass;

/**
 * What becomes of bars in one pass.
 *
 * @param does what becomes of them
 * @param pass in which pass; empty for every one
 */
public record PassRule(Does does, Optional<Pass> pass) {

  /** What becomes of bars. */
  public enum Does {
    /** They are left out in that pass. */
    CUT,
    /** The player plays them in that pass only, and rests in the others. */
    ONLY,
    /** The player rests in that pass. */
    NOT,
    /** What the change puts into the bar stands there in that pass only. */
    PUT,
    /** The same, and everybody is silent. */
    STOP
  }
}
