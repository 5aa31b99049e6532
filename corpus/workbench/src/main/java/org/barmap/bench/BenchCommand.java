package org.barmap.bench;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.barmap.bench.trust.Fuzz;
import org.barmap.bench.trust.Load;
import org.barmap.bench.trust.SharedReading;
import org.barmap.bench.trust.Torture;
import org.barmap.cli.ExtraCommand;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Home;
import org.barmap.map.json.BarMapJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code barmap bench}. */
@Command(name = "bench", mixinStandardHelpOptions = true, resourceBundle = "org.barmap.bench.help")
public final class BenchCommand implements ExtraCommand {

  /** What can be measured. */
  enum What {
    /** Reading pages. */
    READ,
    /** Planning a show. */
    PLAN,
    /** Keeping corrections. */
    EDIT,
    /** Following a book. */
    FEED,
    /** A service that is killed while it is written to; only when it is named. */
    TORTURE,
    /** Many readers, editors and listeners at one service; only when it is named. */
    LOAD,
    /** Broken files sent to a service; only when it is named. */
    FUZZ,
    /** Processes that read at one database; only when it is named. */
    WORKERS
  }

  private static final Set<What> LONG =
      EnumSet.of(What.TORTURE, What.LOAD, What.FUZZ, What.WORKERS);

  private static final int TORTURE_SECONDS = 600;
  private static final int LOAD_SECONDS = 120;
  private static final int FUZZ_SECONDS = 6 * 3600;

  @Spec private CommandSpec spec;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "read|plan|edit|feed|torture|load|fuzz|workers")
  private Optional<What> what = Optional.empty();

  @Parameters(index = "1..*", arity = "0..*", paramLabel = "PAGES")
  private List<Path> paths = List.of();

  @Option(names = "--rounds", paramLabel = "N", defaultValue = "" + Rounds.USUAL)
  private int rounds;

  @Option(names = "--seconds", paramLabel = "N")
  private Optional<Integer> seconds = Optional.empty();

  @Option(names = "--cases", paramLabel = "N", defaultValue = "20000")
  private int cases;

  @Option(names = "--senders", paramLabel = "N")
  private Optional<Integer> senders = Optional.empty();

  @Option(names = "--seed", paramLabel = "N", defaultValue = "1")
  private long seed;

  @Option(names = "--serve", paramLabel = "OPTION")
  private List<String> options = List.of();

  @Option(names = "--database", paramLabel = "ADDRESS")
  private Optional<String> database = Optional.empty();

  @Option(names = "--workers", paramLabel = "N", defaultValue = "2")
  private int workers;

  @Option(names = "--books", paramLabel = "N", defaultValue = "8")
  private int books;

  @Option(names = "--json")
  private boolean json;

  /** Made by the service loader; picocli sets the specification. */
  @SuppressWarnings("NullAway.Init")
  public BenchCommand() {}

  @Override
  public Integer call() throws IOException {
    if (rounds < 1) {
      throw new ParameterException(spec.commandLine(), "--rounds takes a number from 1 on");
    }
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("cores", Runtime.getRuntime().availableProcessors());
    if (wants(What.PLAN)) {
      PlanBench.measure(figures, new Rounds(rounds));
    }
    if (wants(What.EDIT)) {
      EditBench.measure(figures, new Rounds(rounds));
    }
    if (wants(What.FEED)) {
      FeedBench.measure(figures, new Rounds(rounds));
    }
    if (wants(What.READ)) {
      read(figures);
    }
    if (wants(What.TORTURE)) {
      Torture.Shared shared = new Torture.Shared(database, workers);
      figures.putAll(Torture.run(seconds.orElse(TORTURE_SECONDS), seed, options, shared));
    }
    if (wants(What.LOAD)) {
      figures.putAll(Load.run(seconds.orElse(LOAD_SECONDS), atDatabase()));
    }
    if (wants(What.FUZZ)) {
      int many = senders.orElse(Runtime.getRuntime().availableProcessors());
      int most = seconds.orElse(FUZZ_SECONDS);
      figures.putAll(Fuzz.run(cases, most, seed, many, atDatabase()));
    }
    if (wants(What.WORKERS)) {
      String at =
          database.orElseThrow(
              () -> new ParameterException(spec.commandLine(), "workers needs a --database"));
      figures.putAll(SharedReading.run(at, books));
    }
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(BarMapJson.mapper().writeValueAsString(figures));
    } else {
      figures.forEach((name, value) -> out.printf("%-24s %s%n", name, value));
    }
    out.flush();
    return ExitCode.DONE;
  }

  /** What one process is started with that listens and reads, at the database if one is named. */
  private List<String> atDatabase() {
    List<String> all = new ArrayList<>(options);
    database.ifPresent(d -> all.addAll(List.of("--database=" + d, "--workers=" + workers)));
    return all;
  }

  private boolean wants(What one) {
    return what.map(w -> w == one).orElse(!LONG.contains(one));
  }

  private void read(Map<String, Object> figures) throws IOException {
    ReadBench bench = ReadBench.read(paths.isEmpty() ? List.of(Home.demoBook()) : paths);
    figures.put("pages", bench.pages());
    figures.put("secondsPerPage", Rounds.rounded(bench.secondsPerPage()));
    figures.put("floorSecondsPerPage", Rounds.rounded(bench.floorSecondsPerPage()));
    figures.put("ratio", Rounds.rounded(bench.ratio()));
    figures.put("cpuSecondsPerPage", Rounds.rounded(bench.cpuSecondsPerPage()));
    figures.put("bookSecondsPerPage", Rounds.rounded(bench.bookSecondsPerPage()));
    figures.put("peakMiB", Rounds.rounded(bench.peakMiB()));
    Map<String, Object> stages = new LinkedHashMap<>();
    bench.stages().forEach((name, seconds) -> stages.put(name, Rounds.rounded(seconds)));
    figures.put("stages", stages);
  }
}
