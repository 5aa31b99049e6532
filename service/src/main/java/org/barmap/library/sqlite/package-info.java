/**
 * The embedded store behind {@link org.barmap.library.Library}: SQLite for what is small, files
 * written whole for pictures. Nothing outside knows more of it than {@link
 * org.barmap.library.sqlite.SqliteLibrary}.
 */
@NullMarked
package org.barmap.library.sqlite;

import org.jspecify.annotations.NullMarked;
