/**
 * Books, their pages, drafts, history, changes and jobs on disk: one port, {@link
 * org.barmap.library.Library}, and the embedded store behind it.
 *
 * <p>What a call has returned is on disk: a kill at any moment loses none of it. Files are written
 * whole or not at all. Two people who edit the same revision never overwrite each other: the second
 * one is told {@code Stale}.
 */
@NullMarked
package org.barmap.library;

import org.jspecify.annotations.NullMarked;
