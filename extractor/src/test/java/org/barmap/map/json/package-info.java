/** Tests of this room. */
@NullMarked
package org.barmap.map.json;

import org.jspecify.annotations.NullMarked;
