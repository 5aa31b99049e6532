/**
 * The shared store: a PostgreSQL database that several processes have open, beside a folder with
 * the pictures that all of them see. Nothing outside knows more of it than {@link
 * org.barmap.library.postgres.PostgresLibrary} and {@link
 * org.barmap.library.postgres.DatabaseAddress}.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>Transactions are {@code READ COMMITTED}: one that reads, compares and writes takes the row
 *       of its book first ({@link org.barmap.library.sql.Store#edit}); several reads that must fit
 *       one another are a {@link org.barmap.library.sql.Store#view}.
 *   <li>A start looks through the folder only while no other process has the database open ({@link
 *       org.barmap.library.postgres.Presence}): what another one is about to keep is in no row yet.
 *   <li>A password is in no message and in no log.
 * </ul>
 */
@NullMarked
package org.barmap.library.postgres;

import org.jspecify.annotations.NullMarked;
