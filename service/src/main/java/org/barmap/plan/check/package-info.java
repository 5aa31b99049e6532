/**
 * Looks at changes before they are played: what a cut tears apart, where one lands, and which
 * changes can't both be meant.
 */
@NullMarked
package org.barmap.plan.check;

import org.jspecify.annotations.NullMarked;
