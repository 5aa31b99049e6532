package org.barmap.cli.out;

/** What the process answers with. */
public final class ExitCode {

  /** Done. */
  public static final int DONE = 0;

  /** The command was used in a wrong way, or can't run here. */
  public static final int WRONG_USE = 2;

  /** Something named can't be read, or the result can't be written. */
  public static final int UNREADABLE = 3;

  /** Everything could be read, but there is nothing of what was looked for. */
  public static final int NOTHING_FOUND = 4;

  private ExitCode() {}
}
