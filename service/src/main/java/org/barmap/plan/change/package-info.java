/**
 * What the show changes in the book: the sealed {@link org.barmap.plan.change.ShowChange}, its
 * format {@code changes/1}, the words players and directors say it in, and bar addresses ("4 before
 * B").
 */
@NullMarked
package org.barmap.plan.change;

import org.jspecify.annotations.NullMarked;
