package org.barmap.cli;

/** Ends a command with one line for the user: what, and what to do. */
final class CommandException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  private final int exitCode;

  CommandException(int exitCode, String line) {
    super(line);
    this.exitCode = exitCode;
  }

  int exitCode() {
    return exitCode;
  }
}
