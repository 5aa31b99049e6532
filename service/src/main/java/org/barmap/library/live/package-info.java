/** What processes that share a store tell one another. */
@NullMarked
package org.barmap.library.live;

import org.jspecify.annotations.NullMarked;
