/**
 * The plan: pure functions of a bar map, the show's changes and the player's settings.
 *
 * <p>Start at {@link org.barmap.plan.Planner}. {@code barplan/1} is written by {@link
 * org.barmap.plan.PlanJson}; changes are read by {@link org.barmap.plan.change.ChangesJson}, or
 * from a director's words. Nothing here keeps state, reads files or knows a clock.
 */
@NullMarked
package org.barmap.plan;

import org.jspecify.annotations.NullMarked;
