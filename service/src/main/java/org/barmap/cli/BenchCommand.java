package org.barmap.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.barmap.extract.Bench;
import org.barmap.map.json.BarMapJson;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code barmap bench}. */
@Command(
    name = "bench",
    mixinStandardHelpOptions = true,
    description = {
      "Measures reading, planning and correcting on this machine.",
      "Seconds differ from machine to machine; ratios less so."
    })
final class BenchCommand implements Callable<Integer> {

  /** What can be measured. */
  enum What {
    /** Reading pages. */
    READ,
    /** Planning a show. */
    PLAN,
    /** Keeping corrections. */
    EDIT
  }

  @Spec private CommandSpec spec;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "read|plan|edit",
      description = "What to measure; all of it unless you say so.")
  private Optional<What> what = Optional.empty();

  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "PAGES",
      description = "Files and folders to read; the demo book unless you name some.")
  private List<Path> paths = List.of();

  @Option(names = "--json", description = "Prints the figures as JSON.")
  private boolean json;

  @SuppressWarnings("NullAway.Init")
  BenchCommand() {}

  @Override
  public Integer call() throws IOException {
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("cores", Runtime.getRuntime().availableProcessors());
    if (wants(What.PLAN)) {
      PlanBench.measure(figures);
    }
    if (wants(What.EDIT)) {
      EditBench.measure(figures);
    }
    if (wants(What.READ)) {
      read(figures);
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

  private boolean wants(What one) {
    return what.map(w -> w == one).orElse(true);
  }

  private void read(Map<String, Object> figures) throws IOException {
    Bench bench = Bench.read(paths.isEmpty() ? List.of(Home.demoBook()) : paths);
    figures.put("pages", bench.pages());
    figures.put("secondsPerPage", rounded(bench.secondsPerPage()));
    figures.put("floorSecondsPerPage", rounded(bench.floorSecondsPerPage()));
    figures.put("ratio", rounded(bench.ratio()));
    figures.put("cpuSecondsPerPage", rounded(bench.cpuSecondsPerPage()));
    figures.put("bookSecondsPerPage", rounded(bench.bookSecondsPerPage()));
    figures.put("peakMiB", rounded(bench.peakMiB()));
    Map<String, Object> stages = new LinkedHashMap<>();
    bench.stages().forEach((name, seconds) -> stages.put(name, rounded(seconds)));
    figures.put("stages", stages);
  }

  /** Rounds a figure to a thousandth. */
  static double rounded(double value) {
    return Math.round(value * 1000) / 1000.0;
  }

  /** Returns the median of measured nanoseconds in milliseconds. */
  static double medianMillis(long[] nanos) {
    long[] sorted = nanos.clone();
    Arrays.sort(sorted);
    return rounded(sorted[sorted.length / 2] / 1e6);
  }
}
