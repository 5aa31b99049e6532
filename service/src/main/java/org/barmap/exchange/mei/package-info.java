/** A bar map's structure as MEI, with the place of every bar on its page. */
@NullMarked
package org.barmap.exchange.mei;

import org.jspecify.annotations.NullMarked;
