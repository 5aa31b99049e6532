package org.barmap.cli.option;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.cli.run.Home;
import org.barmap.map.SecondReading;
import org.barmap.work.engine.EngineCommand;
import org.barmap.work.engine.EngineLimits;
import org.barmap.work.engine.EngineOutcome;
import org.barmap.work.engine.EngineRun;
import org.barmap.work.engine.Plugins;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** Other readers of music that are asked about the same pages. */
public final class EngineOptions {

  private static final long MOST_MINUTES = 24 * 60;

  @Option(names = "--engine", paramLabel = "NAME|COMMAND")
  private List<String> engines = List.of();

  @Option(names = "--engine-minutes", paramLabel = "N")
  private Optional<Long> minutes = Optional.empty();

  private final List<EngineCommand> commands = new ArrayList<>();

  /**
   * Understands the options, before anything takes long.
   *
   * @param piped a page comes from standard input, which can be read only once
   * @throws ParameterException says what is wrong
   */
  public void check(CommandLine line, boolean piped) throws IOException {
    commands.clear();
    for (String text : engines) {
      commands.add(command(line, text));
    }
    long names = commands.stream().map(EngineCommand::name).distinct().count();
    if (names < commands.size()) {
      throw new ParameterException(
          line, "--engine: two have one name; put another before a command, NAME=COMMAND");
    }
    if (minutes.filter(m -> m < 1 || m > MOST_MINUTES).isPresent()) {
      throw new ParameterException(line, "--engine-minutes is 1 to " + MOST_MINUTES);
    }
    if (piped && !commands.isEmpty()) {
      throw new ParameterException(
          line, "--engine needs the pages as files, not from standard input");
    }
  }

  private static EngineCommand command(CommandLine line, String text) throws IOException {
    if (EngineCommand.isCommand(text)) {
      try {
        return EngineCommand.of(text);
      } catch (IllegalArgumentException e) {
        throw new ParameterException(line, "--engine: " + e.getMessage());
      }
    }
    Plugins plugins = new Plugins(Home.folder().resolve("plugins"));
    Optional<EngineCommand> plugin = plugins.named(text.strip());
    String there =
        plugins.names().isEmpty() ? "" : "; there are " + String.join(", ", plugins.names());
    return plugin.orElseThrow(
        () ->
            new ParameterException(
                line,
                "--engine: no plugin "
                    + text
                    + " in "
                    + plugins.folder()
                    + there
                    + ". A command needs {pages} and {out}"));
  }

  /** Returns all engines; {@link #check} understood them. */
  public List<EngineCommand> commands() {
    return List.copyOf(commands);
  }

  /** Returns what each of them may cost. */
  public EngineLimits limits() {
    return minutes
        .map(m -> EngineLimits.STANDARD.withTime(Duration.ofMinutes(m)))
        .orElse(EngineLimits.STANDARD);
  }

  /** Asks all of them; one that fails is named, and the others are asked. */
  public List<SecondReading.Part> ask(List<Path> paths, String part, PrintWriter err)
      throws IOException {
    List<SecondReading.Part> said = new ArrayList<>();
    if (commands.isEmpty()) {
      return said;
    }
    try (EngineRun run = EngineRun.of(paths, limits())) {
      for (EngineCommand engine : commands) {
        err.println("Asking " + engine.name());
        err.flush();
        EngineOutcome outcome = run.ask(engine, part);
        if (outcome instanceof EngineOutcome.Done done) {
          said.add(done.part());
        } else if (outcome instanceof EngineOutcome.Failed failed) {
          err.println("barmap: " + failed.why() + "; its reading was not used");
          err.flush();
        }
      }
      return said;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }
}
