/** Tests of the traps of a night. */
@NullMarked
package org.barmap.plan.trap;

import org.jspecify.annotations.NullMarked;
