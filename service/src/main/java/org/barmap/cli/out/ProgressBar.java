package org.barmap.cli.out;

import java.io.PrintWriter;

/** A progress bar on standard error; plain lines where that is no terminal. */
public final class ProgressBar {

  private static final int WIDTH = 24;

  private final PrintWriter err;
  private final boolean terminal;
  private int last;

  /** Draws on a writer; {@code terminal} tells whether a line can be drawn over. */
  public ProgressBar(PrintWriter err, boolean terminal) {
    this.err = err;
    this.terminal = terminal;
  }

  /** Draws on standard error. */
  public static ProgressBar onTerminal(PrintWriter err) {
    return new ProgressBar(err, System.console() != null && System.getenv("TERM") != null);
  }

  /** Shows how far it is. */
  public void show(int done, int of, String text) {
    String line = text;
    if (of > 0) {
      int filled = WIDTH * Math.min(done, of) / of;
      line =
          "["
              + "#".repeat(filled)
              + ".".repeat(WIDTH - filled)
              + "] "
              + done
              + " of "
              + of
              + "  "
              + text;
    }
    if (terminal) {
      err.print("\r" + line + " ".repeat(Math.max(0, last - line.length())));
      last = line.length();
    } else {
      err.println(line);
    }
    err.flush();
  }

  /** Ends the bar; what follows begins on a line of its own. */
  public void end() {
    if (terminal && last > 0) {
      err.println();
      err.flush();
      last = 0;
    }
  }
}
