package org.barmap.cli.option;

import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What of the service a process does, where several share a database. */
public final class ServeParts {

  private static final int MOST_WORKERS = 64;

  @Option(names = "--only-web")
  private boolean onlyWeb;

  @Option(names = "--only-work")
  private boolean onlyWork;

  @Option(names = "--workers", paramLabel = "N")
  private Optional<Integer> workers = Optional.empty();

  /** Set by picocli. */
  @SuppressWarnings("NullAway.Init")
  @Spec(Spec.Target.MIXEE)
  private CommandSpec spec;

  /** Fails where they don't fit together. */
  public void check(boolean shared) {
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
  public boolean web() {
    return !onlyWork;
  }

  /** Returns how many pages are read at a time. */
  public int workers() {
    return onlyWeb ? 0 : workers.orElse(1);
  }
}
