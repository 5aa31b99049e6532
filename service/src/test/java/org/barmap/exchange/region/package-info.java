/** Tests of bars as regions. */
@NullMarked
package org.barmap.exchange.region;

import org.jspecify.annotations.NullMarked;
