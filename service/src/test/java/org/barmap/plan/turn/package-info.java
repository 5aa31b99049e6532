/** Tests of page turns. */
@NullMarked
package org.barmap.plan.turn;

import org.jspecify.annotations.NullMarked;
