/**
 * Plans of a book as it stands, and the form drawn from them: worked out once for a revision,
 * whoever asks, and sent from there.
 */
@NullMarked
package org.barmap.web.planned;

import org.jspecify.annotations.NullMarked;
