/**
 * Which changes hold: in the version of the show that is planned, on its day, taken apart by
 * numbers; and which of them ask for what is so anyway.
 */
@NullMarked
package org.barmap.plan.show;

import org.jspecify.annotations.NullMarked;
