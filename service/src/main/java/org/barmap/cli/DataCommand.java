package org.barmap.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.barmap.cli.run.Home;
import picocli.CommandLine.Option;

/** A command on the folder in which books are kept. */
abstract class DataCommand extends PrintingCommand {

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "Where books are kept (.barmap in the program's folder unless you say so).")
  private Optional<Path> data = Optional.empty();

  /** Returns that folder. */
  Path folder() {
    return data.orElseGet(Home::data);
  }
}
