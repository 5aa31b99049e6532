package org.barmap.cli.out;

/** Ends a command with one line for the user: what, and what to do. */
public final class CommandException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int exitCode;

  /**
   * A failure to tell the user.
   *
   * @param exitCode one of {@link ExitCode}
   * @param line what is wrong, and what to do
   */
  public CommandException(int exitCode, String line) {
    super(line);
    this.exitCode = exitCode;
  }

  public int exitCode() {
    return exitCode;
  }
}
