/** Tests of this room. */
@NullMarked
package org.barmap.reckon.compare;

import org.jspecify.annotations.NullMarked;
