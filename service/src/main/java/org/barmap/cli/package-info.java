/**
 * The {@code barmap} command.
 *
 * <p>Exit codes: 0 done, 2 wrong use, 3 input can't be read, 4 nothing found. What is asked for
 * goes to standard output, everything else to standard error, one line an error, never a stack
 * trace.
 *
 * <p>Fields of picocli's {@code @Option} need initial values, or NullAway stops the build; what
 * {@code --help} says of them stands in {@code help.properties}. Only {@link
 * org.barmap.cli.Service} closes things, in its order: JVM hooks run all at once, and the ONNX
 * Runtime's takes the models from under a page being read; so {@link org.barmap.cli.run.Stopping}
 * hears the signals.
 */
@NullMarked
package org.barmap.cli;

import org.jspecify.annotations.NullMarked;
