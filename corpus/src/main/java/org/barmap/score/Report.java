package org.barmap.score;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.barmap.map.json.BarMapJson;

/** A dated accuracy report: Markdown for people, JSON beside it for the guard. */
public final class Report {
  private static final String LIMITS =
      """
      ## What these figures can't say
      * The pages are made: engraved by programs and damaged by our own models of scanners, phones and pencils. Real
        books are worse in ways nobody modelled; figures on real scans are given in the project's notes, not here.
      * Rates are pooled over bars, so long pages weigh more than short ones.
      * A bar counts as right or wrong as a whole in the reliability table; how bad a wrong one is (a rest of 8 read as
        9, or as music) is not told.
      * Words are not scored: only what they mean for the order of play is, and few pages carry any.
      """;

  private Report() {}

  /**
   * Writes {@code NAME-DATE.md} and {@code NAME-DATE.json}.
   *
   * @return the Markdown file
   * @throws IOException when a file can't be written
   */
  public static Path write(Evaluation evaluation, Path folder, String name, LocalDate date)
      throws IOException {
    Files.createDirectories(folder);
    String stem = name + "-" + date;
    Map<String, Object> json = new LinkedHashMap<>();
    json.put("date", date.toString());
    json.put("hardware", Hardware.words());
    json.put("reliability", reliability(evaluation.all()));
    json.putAll(EvaluationText.json(evaluation));
    Files.writeString(
        folder.resolve(stem + ".json"),
        BarMapJson.mapper().writeValueAsString(json) + "\n",
        StandardCharsets.UTF_8);
    Path file = folder.resolve(stem + ".md");
    Files.writeString(file, markdown(evaluation, name, date), StandardCharsets.UTF_8);
    return file;
  }

  static String markdown(Evaluation evaluation, String name, LocalDate date) {
    StringBuilder out = new StringBuilder();
    out.append("# Accuracy of reading: ").append(name).append(", ").append(date).append("\n\n");
    out.append(evaluation.files().size()).append(" files, ");
    out.append(evaluation.all().get("pages")).append(" pages, ");
    out.append(evaluation.all().get("be_t")).append(" bar entries. Everything was found by the ");
    out.append("program itself, staves included. Hardware: ").append(Hardware.words());
    out.append(". ");
    out.append(
        String.format(
            Locale.ROOT,
            "%.2f s a page (median, warm, this machine may have been busy).%n%n",
            evaluation.secondsPerPage()));
    out.append("## By kind of page\n```\n").append(kinds(evaluation)).append("```\n\n");
    out.append("## By sign\n");
    Map<String, Tally> groups = new LinkedHashMap<>(evaluation.byKind());
    groups.put("all", evaluation.all());
    groups.forEach(
        (kind, tally) ->
            out.append("### ")
                .append(kind)
                .append("\n```\n")
                .append(EvaluationText.signs(SignTable.of(tally)))
                .append("```\n"));
    out.append("\n## Confidence\n").append(reliabilityText(evaluation.all()));
    out.append("\n## The ten worst pages\n").append(failures(evaluation.worst(10))).append('\n');
    return out.append(LIMITS).toString();
  }

  private static String kinds(Evaluation evaluation) {
    String table = EvaluationText.table(evaluation);
    return table.substring(0, table.indexOf("\n\n") + 1);
  }

  /** Entries whose confidence lies in one tenth: their mean confidence and how many were right. */
  record Bin(double confidence, double right, long n) {}

  private static List<Bin> reliability(Tally t) {
    List<Bin> bins = new java.util.ArrayList<>();
    for (int k = 0; k < Tally.BINS; k++) {
      if (t.binN(k) > 0) {
        double n = t.binN(k);
        bins.add(new Bin(t.binConfidence(k) / n, t.binRight(k) / n, t.binN(k)));
      }
    }
    return bins;
  }

  private static String reliabilityText(Tally t) {
    StringBuilder out =
        new StringBuilder("| mean confidence | share right | entries |\n|---|---|---|\n");
    for (Bin b : reliability(t)) {
      out.append(
          String.format(Locale.ROOT, "| %.3f | %.3f | %d |%n", b.confidence(), b.right(), b.n()));
    }
    Figures figures = Figures.of(t);
    out.append("\nExpected calibration error ").append(EvaluationText.cell(figures, "ece"));
    return out.append("; given 0.9 or more and wrong: ")
        .append(t.get("sure_wrong"))
        .append(".\n")
        .toString();
  }

  private static String failures(List<Evaluation.FileScore> worst) {
    StringBuilder out = new StringBuilder();
    for (Evaluation.FileScore f : worst) {
      out.append(
          String.format(Locale.ROOT, "* %s: %.1f corrections a page", f.name(), f.corrections()));
      Map<String, Integer> kinds = new java.util.TreeMap<>();
      f.errors().forEach(e -> kinds.merge(e.kind(), 1, Integer::sum));
      kinds.forEach((k, n) -> out.append(", ").append(n).append(' ').append(k));
      out.append('\n');
    }
    return out.length() == 0 ? "none: no page needs a correction.\n" : out.toString();
  }
}
