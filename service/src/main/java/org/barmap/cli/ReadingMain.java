package org.barmap.cli;

import org.barmap.cli.run.Logs;
import org.barmap.work.child.ReadingChild;

/**
 * Starts the process that reads for the service, without a log: some decoders write one for every
 * pixel.
 */
final class ReadingMain {

  private ReadingMain() {}

  /** Reads for whoever asks through standard input. */
  public static void main(String[] args) {
    Logs.quiet();
    ReadingChild.main(args);
  }
}
