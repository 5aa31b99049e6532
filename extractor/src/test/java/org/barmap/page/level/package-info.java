/** Tests of this room. */
@NullMarked
package org.barmap.page.level;

import org.jspecify.annotations.NullMarked;
