/**
 * What stands in a straightened staff: barlines, rests, meters, marks, numerals and words, each
 * with how sure the reading is and what else it could be.
 */
@NullMarked
package org.barmap.sign;

import org.jspecify.annotations.NullMarked;
