/**
 * What the kinds of change share when they are said and understood: the instruction as a kind meets
 * it ({@link org.barmap.plan.change.say.Told}), what becomes of it ({@link
 * org.barmap.plan.change.say.Heard}), how a kind reads it ({@link
 * org.barmap.plan.change.say.Wording}), and the particulars every change carries.
 */
@NullMarked
package org.barmap.plan.change.say;

import org.jspecify.annotations.NullMarked;
