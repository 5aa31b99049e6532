package org.barmap.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import tools.jackson.databind.JsonNode;

/** Compares figures with those of a committed report. */
public final class Guard {
  /**
   * A figure may be this much lower. Readings are exact, so the same program gives the same
   * figures; this is for the last digits of a report.
   */
  private static final double TOLERANCE = 0.0005;

  private static final List<String> HIGHER_IS_BETTER =
      List.of(
          "sys_recall",
          "sys_precision",
          "barline_f1",
          "bar_f1",
          "sys_exact_bars",
          "multirest_exact",
          "rehearsal_f1",
          "meter_f1",
          "endtype",
          "content",
          "number");

  private Guard() {}

  /** Returns every figure that is worse than the report says, in words. */
  public static List<String> dropped(JsonNode report, Evaluation now) {
    List<String> worse = new ArrayList<>();
    compare("all", report.path("all"), now.all(), worse);
    now.byKind().forEach((k, t) -> compare(k, report.path("kinds").path(k), t, worse));
    for (var kind : report.path("kinds").properties()) {
      if (!now.byKind().containsKey(kind.getKey())) {
        worse.add(kind.getKey() + ": in the report, but no page of it was read");
      }
    }
    return worse;
  }

  private static void compare(String kind, JsonNode report, Tally now, List<String> worse) {
    Figures figures = Figures.of(now);
    JsonNode before = report.path("figures");
    for (String key : HIGHER_IS_BETTER) {
      if (before.has(key)) {
        double was = before.path(key).asDouble();
        double is = figures.get(key).orElse(0);
        if (is < was - TOLERANCE) {
          worse.add(String.format(Locale.ROOT, "%s %s: %.4f, was %.4f", kind, key, is, was));
        }
      }
    }
    if (before.has("ece")) {
      double was = before.path("ece").asDouble();
      double is = figures.get("ece").orElse(1);
      if (is > was + TOLERANCE) {
        worse.add(String.format(Locale.ROOT, "%s ece: %.4f, was %.4f", kind, is, was));
      }
    }
  }
}
