/** Tests of this room. */
@NullMarked
package org.barmap.sign.net;

import org.jspecify.annotations.NullMarked;
