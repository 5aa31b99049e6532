package org.barmap.cli;

import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What of the service a process does, where several share a database. */
final class ServeParts {

  private static final int MOST_WORKERS = 64;

  @Option(
      names = "--only-web",
      description = "With --database: shows books and takes pages, and reads none.")
  private boolean onlyWeb;

  @Option(names = "--only-work", description = "With --database: reads pages, and listens nowhere.")
  private boolean onlyWork;

  @Option(
      names = "--workers",
      paramLabel = "N",
      description = "With --database: reads so many pages at a time (1 unless you say so).")
  private Optional<Integer> workers = Optional.empty();

  /** Set by picocli. */
  @SuppressWarnings("NullAway.Init")
  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  /** Fails where they don't fit together. */
  void check(boolean shared) {
    CommandLine line = spec.commandLine();
    if (!shared && (onlyWeb || onlyWork || workers.isPresent())) {
      throw new ParameterException(
          line,
          "--only-web, --only-work and --workers are for several processes: name a --database");
    }
    if (onlyWeb && (onlyWork || workers.isPresent())) {
      throw new ParameterException(line, "--only-web reads nothing; leave the others out");
    }
    if (workers.filter(n -> n < 1 || n > MOST_WORKERS).isPresent()) {
      throw new ParameterException(line, "1 to " + MOST_WORKERS + " pages are read at a time");
    }
  }

  /** Tells whether it listens. */
  boolean web() {
    return !onlyWork;
  }

  /** Returns how many pages are read at a time. */
  int workers() {
    return onlyWeb ? 0 : workers.orElse(1);
  }
}
