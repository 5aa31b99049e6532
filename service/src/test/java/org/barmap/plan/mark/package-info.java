/** Tests of the pencil list. */
@NullMarked
package org.barmap.plan.mark;

import org.jspecify.annotations.NullMarked;
