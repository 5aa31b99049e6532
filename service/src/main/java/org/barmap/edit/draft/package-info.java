/**
 * A book's map as people have corrected it so far: what they settled, and the computed change,
 * values before and after, that a correction becomes. Knows no kind of correction.
 */
@NullMarked
package org.barmap.edit.draft;

import org.jspecify.annotations.NullMarked;
