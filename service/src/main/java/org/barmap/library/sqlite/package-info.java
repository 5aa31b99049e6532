/**
 * The embedded store: one SQLite file in the data folder, one process at a time. Nothing outside
 * knows more of it than {@link org.barmap.library.sqlite.SqliteLibrary} and {@link
 * org.barmap.library.sqlite.SqliteBackup}.
 *
 * <p>Easy to get wrong: transactions begin {@code IMMEDIATE}, so that one which reads, compares and
 * writes has no other writer beside it.
 */
@NullMarked
package org.barmap.library.sqlite;

import org.jspecify.annotations.NullMarked;
