/**
 * How good a reading is: one bar map scored against its truth, tables over folders, dated reports.
 *
 * <p>The truth is read as a JSON tree, not as a bar map, because a truth leaves out what was not
 * checked by its makers; a missing key means "not judged".
 */
@NullMarked
package org.barmap.score;

import org.jspecify.annotations.NullMarked;
