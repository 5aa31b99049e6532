/** Tests of this room. */
@NullMarked
package org.barmap.page.pixel;

import org.jspecify.annotations.NullMarked;
