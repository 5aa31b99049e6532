package org.barmap.cli;

import java.util.Optional;
import picocli.CommandLine.Option;

/** A command on all books, whose pictures may be kept in a store that an option names. */
abstract class PicturesCommand extends DataCommand {

  @Option(names = "--pictures", paramLabel = "ADDRESS")
  private Optional<String> pictures = Optional.empty();

  @Override
  Optional<String> picturesNamed() {
    return pictures;
  }
}
