/**
 * The planner held against two oracles that know nothing of it: the trade's cases ({@link
 * org.barmap.plan.cases}) and the reference walker ({@link org.barmap.plan.reference}).
 *
 * <p>Both were written from the trade's texts by people who had not read the planner, and the
 * planner does not meet all of their expectations yet. So these tests don't say that a plan is
 * right. They are ratchets: what is right today is kept in {@code cases.txt} and {@code walker.txt}
 * and must stay right, and what has become right must be entered there.
 */
@NullMarked
package org.barmap.plan.oracle;

import org.jspecify.annotations.NullMarked;
