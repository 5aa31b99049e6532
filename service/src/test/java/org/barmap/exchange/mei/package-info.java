/** Tests of MEI. */
@NullMarked
package org.barmap.exchange.mei;

import org.jspecify.annotations.NullMarked;
