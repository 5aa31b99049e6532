/**
 * Bars as they are said, looked up in one number: "from the end of 6 to the beginning of 12", "the
 * 4 bars before B", "the last 8"; what may be several stretches comes back as several.
 */
@NullMarked
package org.barmap.plan.words.bar;

import org.jspecify.annotations.NullMarked;
