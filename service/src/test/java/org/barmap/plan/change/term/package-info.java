/** Tests of the words the trade uses. */
@NullMarked
package org.barmap.plan.change.term;

import org.jspecify.annotations.NullMarked;
