/**
 * The row of books as executions of <a
 * href="https://github.com/kagkarlsson/db-scheduler">db-scheduler</a>, in the table {@code
 * scheduled_tasks}: an execution for every book with an open job, due at the moment from which on
 * it stands in the row. Nothing else in the program knows that library.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>An execution is put in and taken out in the transaction that opens or ends a job, under the
 *       lock of its book ({@link org.barmap.library.sql.turn.Ledger#edit}): a job that is added
 *       while its book is at its last page is not missed.
 *   <li>Moments are those of {@link org.barmap.library.sql.turn.TurnClock}, never this machine's.
 *   <li>The version of an execution tells whether it is still ours; one that was given to others
 *       meanwhile is left alone.
 * </ul>
 */
@NullMarked
package org.barmap.library.sql.turn;

import org.jspecify.annotations.NullMarked;
