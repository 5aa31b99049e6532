/** Tests of getting ready. */
@NullMarked
package org.barmap.plan.ready;

import org.jspecify.annotations.NullMarked;
