/** Tests of this room. */
@NullMarked
package org.barmap.reckon.cells;

import org.jspecify.annotations.NullMarked;
