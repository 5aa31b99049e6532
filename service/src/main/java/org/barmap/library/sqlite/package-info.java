/**
 * The embedded store behind {@link org.barmap.library.Library}: SQLite for what is small, files
 * written whole for pictures. Nothing outside knows more of it than {@link
 * org.barmap.library.sqlite.SqliteLibrary} and {@link org.barmap.library.sqlite.SqliteBackup}.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>What a person removes leaves nothing in the data folder: a page at once, a book when it is
 *       removed from the bin, both also out of the store's bytes. A file that goes is noted with
 *       {@link org.barmap.library.sqlite.Removal#doom} in the step that lets it go; nothing else is
 *       ever deleted, what nothing names is set aside at a start. A new table refers to {@code
 *       book} or {@code page} with {@code on delete cascade}, a new kind of file is named for
 *       {@link org.barmap.library.sqlite.Removal}; {@code RemovalTest} looks through the bytes of
 *       the folder.
 *   <li>A page photographed again stays aside ({@code page.aside}, {@link
 *       org.barmap.library.sqlite.Retakes}) for as long as that step can be taken back or made
 *       again: ask for {@code aside = 0} wherever the pages of a book are meant.
 *   <li>Transactions begin {@code IMMEDIATE}: read, check the revision and write in one of them.
 * </ul>
 */
@NullMarked
package org.barmap.library.sqlite;

import org.jspecify.annotations.NullMarked;
