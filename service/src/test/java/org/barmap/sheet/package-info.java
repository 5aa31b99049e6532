/** Tests of printed sheets. */
@NullMarked
package org.barmap.sheet;

import org.jspecify.annotations.NullMarked;
