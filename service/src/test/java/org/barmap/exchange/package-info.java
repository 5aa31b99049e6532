/** Tests of the bar map's way out and other readings' way in. */
@NullMarked
package org.barmap.exchange;

import org.jspecify.annotations.NullMarked;
