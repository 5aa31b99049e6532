package org.barmap.cli;

import java.util.concurrent.Callable;

/**
 * A command that another jar on the class path adds to {@code barmap}: a class with picocli's
 * {@code @Command} and a public constructor without parameters, named in that jar's {@code
 * META-INF/services}. It answers with one of {@link ExitCode}; a {@link CommandException} ends it
 * with one line for the user.
 */
public interface ExtraCommand extends Callable<Integer> {}
