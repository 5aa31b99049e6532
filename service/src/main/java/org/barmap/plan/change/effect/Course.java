package org.barmap.plan.change.effect;

import java.util.Optional;
import org.barmap.plan.change.term.Pass;

/**
 * What a change does on the way through a number.
 *
 * @param inPass what becomes of its bars in one pass
 * @param put what stands in its bars as if it were printed
 * @param restores what earlier changes left out of its bars is in again; without bars, the number
 * @param repeatsAgain repeats are taken again after a D.C. or D.S.
 * @param track its number runs with a track: everything has a length known beforehand
 */
public record Course(
    Optional<PassRule> inPass,
    Optional<Put> put,
    boolean restores,
    boolean repeatsAgain,
    boolean track) {

  /** Leaves the way as it was. */
  public static final Course NOTHING =
      new Course(Optional.empty(), Optional.empty(), false, false, false);

  /** Brings back what was out. */
  public static final Course RESTORING =
      new Course(Optional.empty(), Optional.empty(), true, false, false);

  /** Takes repeats again after a D.C. or D.S. */
  public static final Course REPEATING =
      new Course(Optional.empty(), Optional.empty(), false, true, false);

  /** Runs the number with a track. */
  public static final Course TRACKED =
      new Course(Optional.empty(), Optional.empty(), false, false, true);

  /** Returns what becomes of bars in a pass. */
  public static Course in(PassRule rule) {
    return new Course(Optional.of(rule), Optional.empty(), false, false, false);
  }

  /** Returns what is put into the book. */
  public static Course putting(Put put) {
    return new Course(Optional.empty(), Optional.of(put), false, false, false);
  }

  /**
   * Returns what is put into the book in some passes.
   *
   * @param pass in which; empty for every one
   * @param silent whether everybody is silent in the bar then
   */
  public static Course putting(Put put, Optional<Pass> pass, boolean silent) {
    Course always = silent ? putting(put).silent() : putting(put);
    PassRule.Does does = silent ? PassRule.Does.STOP : PassRule.Does.PUT;
    return pass.isEmpty()
        ? always
        : new Course(Optional.of(new PassRule(does, pass)), always.put, false, false, false);
  }

  /** Tells whether what is put into the book stands there in some passes only. */
  public boolean putsInPass() {
    return put.isPresent()
        && inPass
            .filter(r -> r.does() == PassRule.Does.PUT || r.does() == PassRule.Does.STOP)
            .isPresent();
  }

  /** Returns the same, the player silent in the bars. */
  public Course silent() {
    PassRule never = new PassRule(PassRule.Does.NOT, Optional.empty());
    return new Course(Optional.of(never), put, restores, repeatsAgain, track);
  }
}
