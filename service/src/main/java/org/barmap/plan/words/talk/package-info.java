/**
 * How people talk in a rehearsal, whatever they ask for: whom they speak to, what only fills, the
 * musical number somewhere in the middle of it. What stands behind all that is an order, and read
 * by the other readers.
 *
 * <p>A message is {@code talk* [number] order (and order)* reason*}, in any order of its parts. An
 * order is {@code deed place* how-often? till? pass?}; a place is a bar, a mark, so many bars
 * before or after one, the n-th bar of a section, an ending, a printed sign. Talk may be left off,
 * a reason is kept as a note, and a message in which any other word is left over is asked.
 */
@NullMarked
package org.barmap.plan.words.talk;

import org.jspecify.annotations.NullMarked;
