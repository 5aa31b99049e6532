/**
 * The store behind {@link org.barmap.library.Library}, in statements that every database of ours
 * understands; what differs from one to the next is {@link org.barmap.library.sql.Store}. Pictures
 * are files written whole.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>What a person removes leaves nothing in the data folder: a page at once, a book when it is
 *       removed from the bin, both also out of the store's bytes. A file that goes is noted with
 *       {@link org.barmap.library.sql.Removal#doom} in the step that lets it go; nothing else is
 *       ever deleted, what nothing names is set aside at a start. A new table refers to {@code
 *       book} or {@code page} with {@code on delete cascade}, a new kind of file is named in {@link
 *       org.barmap.library.sql.SqlLibrary#NAMED}; {@code RemovalTest} looks through the bytes of
 *       the folder.
 *   <li>A page photographed again stays aside ({@code page.aside}, {@link
 *       org.barmap.library.sql.Retakes}) for as long as that step can be taken back or made again:
 *       ask for {@code aside = 0} wherever the pages of a book are meant.
 *   <li>Read, check the revision and write in one {@link org.barmap.library.sql.Store#edit}. Take
 *       the book first, what holds for all books ({@link org.barmap.library.sql.Keys#later}) last,
 *       so that nobody waits in a circle.
 *   <li>No word of one database only: {@code on conflict} instead of {@code insert or ignore}, no
 *       {@code pragma}; flags are numbers, moments are ISO text. A table has its twin in the other
 *       folder of {@code migration}.
 * </ul>
 */
@NullMarked
package org.barmap.library.sql;

import org.jspecify.annotations.NullMarked;
