/**
 * What the reckoning's costs are fitted with and tried against: pages of the corpus as read, with
 * what is true of them.
 */
@NullMarked
package org.barmap.fit;

import org.jspecify.annotations.NullMarked;
