package org.barmap.score;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** An evaluation as text tables and as a JSON tree. */
public final class EvaluationText {
  private static final String[][] COLUMNS = {
    {"pages", "pages"},
    {"bars", "bars"},
    {"sys_recall", "staves"},
    {"sys_precision", "stavesP"},
    {"barline_f1", "barline"},
    {"bar_f1", "bar"},
    {"sys_exact_bars", "sysBars"},
    {"multirest_exact", "rests"},
    {"rehearsal_f1", "marks"},
    {"meter_f1", "meters"},
    {"endtype", "types"},
    {"content", "content"},
    {"number", "numbers"},
    {"corrections_per_page", "corr/p"},
    {"ece", "ECE"}
  };

  private EvaluationText() {}

  /** Returns the figures by kind and overall, then the signs overall; rates in per cent. */
  public static String table(Evaluation evaluation) {
    Map<String, Tally> groups = new LinkedHashMap<>(evaluation.byKind());
    groups.put("all", evaluation.all());
    StringBuilder out = new StringBuilder();
    int width = groups.keySet().stream().mapToInt(String::length).max().orElse(3) + 1;
    out.append(" ".repeat(width));
    for (String[] c : COLUMNS) {
      out.append("%8s".formatted(c[1]));
    }
    out.append('\n');
    groups.forEach(
        (name, tally) -> {
          Figures figures = Figures.of(tally);
          out.append(name).append(" ".repeat(width - name.length()));
          for (String[] c : COLUMNS) {
            out.append("%8s".formatted(cell(figures, c[0])));
          }
          out.append('\n');
        });
    out.append('\n').append(signs(SignTable.of(evaluation.all())));
    out.append("%n%.2f s a page (median)%n".formatted(evaluation.secondsPerPage()));
    return out.toString();
  }

  static String signs(List<SignTable.Row> rows) {
    StringBuilder out = new StringBuilder();
    out.append(
        "%-22s%10s%10s%10s%12s%12s%n"
            .formatted("sign", "printed", "read", "right", "of printed", "of read"));
    for (SignTable.Row r : rows) {
      out.append(
          String.format(
              Locale.ROOT,
              "%-22s%10d%10d%10d%12.3f%12.3f%n",
              r.sign(),
              r.printed(),
              r.found(),
              r.right(),
              r.ofPrinted(),
              r.ofRead()));
    }
    return out.toString();
  }

  static String cell(Figures figures, String key) {
    if (figures.get(key).isEmpty()) {
      return "–";
    }
    double v = figures.get(key).getAsDouble();
    return switch (key) {
      case "pages", "bars" -> Long.toString(Math.round(v));
      case "corrections_per_page" -> String.format(Locale.ROOT, "%.2f", v);
      case "ece" -> String.format(Locale.ROOT, "%.4f", v);
      default -> String.format(Locale.ROOT, "%.1f", 100 * v);
    };
  }

  /** Returns all figures: overall, by kind, by engraver and kind, by file; for writing as JSON. */
  public static Map<String, Object> json(Evaluation evaluation) {
    Map<String, Object> out = new LinkedHashMap<>();
    out.put("all", group(evaluation.all()));
    out.put("kinds", groups(evaluation.byKind()));
    out.put("categories", groups(evaluation.byCategory()));
    Map<String, Object> files = new LinkedHashMap<>();
    evaluation
        .files()
        .forEach(f -> files.put(f.name(), Map.of("correctionsPerPage", f.corrections())));
    out.put("files", files);
    out.put("secondsPerPage", evaluation.secondsPerPage());
    return out;
  }

  private static Map<String, Object> groups(Map<String, Tally> tallies) {
    Map<String, Object> out = new LinkedHashMap<>();
    tallies.forEach((k, t) -> out.put(k, group(t)));
    return out;
  }

  private static Map<String, Object> group(Tally tally) {
    Map<String, Object> out = new LinkedHashMap<>();
    out.put("figures", Figures.of(tally).values());
    Map<String, Object> signs = new LinkedHashMap<>();
    for (SignTable.Row r : SignTable.of(tally)) {
      signs.put(
          r.sign(),
          Map.of(
              "printed",
              r.printed(),
              "read",
              r.found(),
              "right",
              r.right(),
              "ofPrinted",
              r.ofPrinted(),
              "ofRead",
              r.ofRead()));
    }
    out.put("signs", signs);
    return out;
  }
}
