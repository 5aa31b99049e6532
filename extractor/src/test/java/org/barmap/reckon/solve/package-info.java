/** Tests of this room. */
@NullMarked
package org.barmap.reckon.solve;

import org.jspecify.annotations.NullMarked;
