/** Tests of the kinds of change. */
@NullMarked
package org.barmap.plan.change.kind;

import org.jspecify.annotations.NullMarked;
