package org.barmap.fit;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.fit.CorpusReadings.Labelled;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.cost.Calibration;
import org.barmap.reckon.cost.Costs;
import org.barmap.score.Comparison;
import org.barmap.score.Tally;

/**
 * Fits the costs and the confidence on the corpus: {@code barmap fit costs}.
 *
 * <p>It writes what was held out into {@code target/fit.md} of this module, then {@code costs.json}
 * and {@code calibration.json} into the extractor's resources.
 */
final class FitCosts {

  /** What is written here. */
  static final Path RESOURCES =
      CorpusReadings.HOME.resolveSibling("extractor/src/main/resources/org/barmap/reckon/cost");

  /** A confidence may be so far from the share that is right, on pages it was not fitted on. */
  private static final double MOST_OFF = 0.03;

  private FitCosts() {}

  /**
   * Fits anew and keeps it.
   *
   * @return the table of what was held out, Markdown
   * @throws CommandException when a confidence fitted on one half of the pages is too far off on
   *     the other; nothing is kept then
   */
  static String run() throws IOException {
    List<Labelled> all = CorpusReadings.all();
    StringBuilder report = new StringBuilder();
    List<Labelled> even = all.stream().filter(l -> l.seed() % 2 == 0).toList();
    List<Labelled> odd = all.stream().filter(l -> l.seed() % 2 != 0).toList();
    Observed seen = Observed.of(all);
    Map<String, Object> kept = new LinkedHashMap<>();
    kept.put("fitted", LocalDate.now(ZoneOffset.UTC).toString());
    kept.put("on", "corpus/pages, " + all.size() + " pages; see `barmap fit costs`");
    kept.put("events", seen.events());
    Map<String, Object> fitted = Fitting.fit(seen);
    kept.put("costs", fitted);
    Costs costs = costs(fitted);
    Observed seenEven = Observed.of(even);
    Observed seenOdd = Observed.of(odd);
    Costs onEven = costs(Fitting.fit(seenEven));
    Costs onOdd = costs(Fitting.fit(seenOdd));
    report.append("## Numbers right, costs fitted on the other half of the seeds\n\n");
    report.append("| kind | even seeds | odd seeds | together |\n| --- | --- | --- | --- |\n");
    for (String kind : List.of("clean", "scan", "photo", "pencil")) {
      double[] a = right(of(even, kind), onOdd);
      double[] b = right(of(odd, kind), onEven);
      report.append(
          "| %s | %.2f %% | %.2f %% | %.2f %% |%n"
              .formatted(
                  kind, 100 * a[0] / a[1], 100 * b[0] / b[1], 100 * (a[0] + b[0]) / (a[1] + b[1])));
    }
    Calibration onBoth = Confidence.fit(all, seen, costs);
    Calibration confidenceEven = Confidence.fit(even, seenEven, onEven);
    Calibration confidenceOdd = Confidence.fit(odd, seenOdd, onOdd);
    report.append("\n## Confidence of entries, fitted on the other half\n\n");
    report.append(Confidence.table("even seeds", even, onOdd, confidenceOdd));
    report.append(Confidence.table("odd seeds", odd, onEven, confidenceEven));
    report.append("## Single signs, costs and calibration fitted on the other half\n\n");
    report.append(Reliability.tables("even seeds", seenEven, onOdd, confidenceOdd.signs()));
    report.append(Reliability.tables("odd seeds", seenOdd, onEven, confidenceEven.signs()));
    Files.writeString(CorpusReadings.target("fit.md"), report.toString());
    double off =
        Math.max(
            Confidence.error(even, onOdd, confidenceOdd),
            Confidence.error(odd, onEven, confidenceEven));
    if (off >= MOST_OFF) {
      throw new CommandException(
          ExitCode.NOTHING_FOUND,
          "a confidence is off by %.3f on pages it was not fitted on; nothing was kept, see %s"
              .formatted(off, CorpusReadings.target("fit.md")));
    }
    Files.writeString(
        RESOURCES.resolve("costs.json"), BarMapJson.mapper().writeValueAsString(kept) + "\n");
    Map<String, Object> sure = new LinkedHashMap<>();
    sure.put("fitted", kept.get("fitted"));
    sure.put("on", kept.get("on"));
    sure.put("signs", onBoth.signs());
    sure.put("knots", onBoth.knots());
    Files.writeString(
        RESOURCES.resolve("calibration.json"), BarMapJson.mapper().writeValueAsString(sure) + "\n");
    return report.toString();
  }

  private static List<Labelled> of(List<Labelled> pages, String kind) {
    return pages.stream().filter(l -> l.kind().equals(kind)).toList();
  }

  private static Costs costs(Map<String, Object> values) {
    return BarMapJson.mapper().convertValue(values, Costs.class);
  }

  /** Entries with the right number, and all entries. */
  private static double[] right(List<Labelled> pages, Costs costs) {
    double ok = 0;
    double of = 0;
    for (Labelled l : pages) {
      BarMap map = new Reckoner(costs).reckon(new Book("", ""), List.of(l.read()));
      Tally tally = Comparison.of(l.truth(), BarMapJson.mapper().valueToTree(map)).tally();
      ok += tally.get("num_ok");
      of += tally.get("num_n");
    }
    return new double[] {ok, of};
  }
}
