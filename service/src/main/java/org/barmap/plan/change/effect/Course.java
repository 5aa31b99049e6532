package org.barmap.plan.change.effect;

import java.util.Optional;

/**
 * What a change does on the way through a number.
 *
 * @param inPass what becomes of its bars in one pass
 */
public record Course(Optional<PassRule> inPass) {

  /** Leaves the way as it was. */
  public static final Course NOTHING = new Course(Optional.empty());

  /** Returns what becomes of bars in a pass. */
  public static Course in(PassRule rule) {
    return new Course(Optional.of(rule));
  }
}
