/**
 * Compares a planner with the walker over random books.
 *
 * <p>An adapter implements {@link org.barmap.plan.reference.against.PlanUnderTest}; where the
 * planner writes {@code barplan/1}, {@link org.barmap.plan.reference.against.BarplanReader} does
 * most of it:
 *
 * <pre>
 * PlanUnderTest planner = (map, changes, repeatsAfterJump) -&gt;
 *     BarplanReader.read(planAsJson(map, changes, repeatsAfterJump), map, changes, this::asks);
 * Tally tally = Tally.of(planner, seed -&gt; RandomBooks.book(seed, Knobs.ordinary()), 0, 20_000, 10);
 * assertThat(tally.count(Verdict.Group.DIFFER)).as(tally.toString()).isZero();
 * </pre>
 */
package org.barmap.plan.reference.against;
