/**
 * The {@code barmap} command.
 *
 * <p>Exit codes: 0 done, 2 wrong use, 3 input can't be read, 4 nothing found. What is asked for
 * goes to standard output, everything else to standard error, one line an error, never a stack
 * trace.
 */
@NullMarked
package org.barmap.cli;

import org.jspecify.annotations.NullMarked;
