/** Tests of this room. */
@NullMarked
package org.barmap.sign.strip;

import org.jspecify.annotations.NullMarked;
