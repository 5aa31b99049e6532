/** Provokes on every route of the description what it says may be answered there. */
@NullMarked
package org.barmap.web.answer;

import org.jspecify.annotations.NullMarked;
