/**
 * A book's map as people have corrected it so far: what they settled, and the computed change,
 * values before and after, that a correction becomes. Knows no kind of correction.
 *
 * <p>Nothing a person set is ever changed by a reading or by settling; {@link
 * org.barmap.edit.draft.Settled} says what that is, bar by bar and aspect by aspect. What a
 * correction sets must be named there as an {@link org.barmap.edit.draft.Aspect}, or the next
 * reading takes it back; {@code EditingPropertyTest} finds that once the kind is in {@code
 * RandomCorrections}.
 *
 * <p>What is open is kept with the draft ({@code Draft.open}): worked out once, when a change is
 * complete ({@code Editing}, {@code Merging} and {@code Repaging} end with {@link
 * org.barmap.edit.draft.Resettling}). Nothing that reads a draft may settle it; the flight
 * recorder's {@code barmap.Settling} counts. An answered doubt is remembered by {@code
 * Settled.claim}: another claim at the same bar is asked again.
 */
@NullMarked
package org.barmap.edit.draft;

import org.jspecify.annotations.NullMarked;
