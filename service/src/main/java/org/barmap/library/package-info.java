/**
 * Books, their pages, drafts, history, changes and jobs on disk: one port, {@link
 * org.barmap.library.Library}, and the embedded store behind it.
 *
 * <p>What a call has returned is on disk: a kill at any moment loses none of it. Files are written
 * whole or not at all. Two people who edit the same revision never overwrite each other: the second
 * one is told {@code Stale}.
 *
 * <p>Easy to get wrong:
 *
 * <ul>
 *   <li>A new reading of a book gets into its draft through {@link org.barmap.library.Readings}
 *       only, which is told what it was computed from and refuses it when pages or second reading
 *       changed meanwhile; {@code work.Settling} computes it again then.
 *   <li>A new page is not read until its job ran: what was read is stored page by page ({@code
 *       StoredPage}), and the book is settled from all of it.
 *   <li>Taking a page out, or another order of pages, closes the undo history before it: indices
 *       inside older changes would point elsewhere.
 * </ul>
 */
@NullMarked
package org.barmap.library;

import org.jspecify.annotations.NullMarked;
