/** Tests of this room. */
@NullMarked
package org.barmap.reckon.write;

import org.jspecify.annotations.NullMarked;
