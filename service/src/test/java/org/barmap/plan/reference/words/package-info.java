/** What printed words say, by the trade's texts alone. */
@NullMarked
package org.barmap.plan.reference.words;

import org.jspecify.annotations.NullMarked;
