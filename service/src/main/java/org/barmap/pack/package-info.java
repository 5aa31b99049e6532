/**
 * A book in one file, {@code barpack/1}: a zip of documents that each have a format of their own
 * ({@code barmap/1}, {@code changes/1}), settings, what was read of each page, pictures where they
 * were asked for, and a manifest that names them all. Easy to get wrong: names inside a zip are
 * somebody else's, so none ever becomes a path; nothing is stored before all of it was looked at.
 */
@NullMarked
package org.barmap.pack;

import org.jspecify.annotations.NullMarked;
