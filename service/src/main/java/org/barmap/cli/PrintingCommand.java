package org.barmap.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** A command that knows where to print, and how it was called; returns its exit code. */
abstract class PrintingCommand implements Callable<Integer> {

  @Spec private CommandSpec spec;

  @SuppressWarnings("NullAway.Init")
  PrintingCommand() {}

  /** Returns the command as it was called. */
  CommandLine line() {
    return spec.commandLine();
  }

  /** Returns where its answer goes. */
  PrintWriter answers() {
    return line().getOut();
  }

  /** Returns where complaints and progress go. */
  PrintWriter remarks() {
    return line().getErr();
  }
}
