/** Tests of this room. */
@NullMarked
package org.barmap.reckon.book;

import org.jspecify.annotations.NullMarked;
