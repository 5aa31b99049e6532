package org.barmap.score;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A bar map as the scorer sees it: pages with systems with bars, absent keys kept as absent. */
final class ScoredMap {

  /** One page. */
  static final class PageOf {
    double width;
    double height;
    String source = "";
    final List<SystemOf> systems = new ArrayList<>();
    final Map<Object, SystemOf> byIndex = new LinkedHashMap<>();
  }

  /** One system. */
  static final class SystemOf {
    double @Nullable [][] outline;
    double staffSpace;
    @Nullable Object index;
    @Nullable Object printedNumber;
    final List<ScoredBar> bars = new ArrayList<>();
  }

  final Map<Object, PageOf> pages = new LinkedHashMap<>();
  final List<ScoredBar> bars = new ArrayList<>();

  static ScoredMap of(JsonNode document, boolean isTruth) {
    ScoredMap map = new ScoredMap();
    int n = 0;
    for (JsonNode p : document.path("pages")) {
      n++;
      if (p.isObject()) {
        Object index = Trees.value(p.get("index"));
        map.pages.put(p.has("index") && index != null ? index : (double) n, page(p));
      }
    }
    n = 0;
    for (JsonNode b : document.path("bars")) {
      if (b.isObject()) {
        map.add(new ScoredBar(b, "#" + n, isTruth), b);
      }
      n++;
    }
    map.inferPrintedMeters();
    map.pages.values().forEach(p -> p.systems.forEach(ScoredMap::settleBarlines));
    return map;
  }

  private static PageOf page(JsonNode p) {
    PageOf page = new PageOf();
    page.width = Trees.number(p.get("width"));
    page.height = Trees.number(p.get("height"));
    page.source = p.path("source").asString("");
    int n = 0;
    for (JsonNode s : p.path("systems")) {
      n++;
      SystemOf system = new SystemOf();
      double[][] outline = Trees.quad(s.get("outline"));
      system.outline = outline;
      double given = Trees.number(s.get("staffSpace"));
      system.staffSpace =
          given != 0 ? given : outline == null ? 20 : Polygons.distance(outline[0], outline[3]) / 4;
      system.index = s.has("index") ? Trees.value(s.get("index")) : (Object) (double) n;
      system.printedNumber = Trees.value(s.get("printedBarNumber"));
      page.systems.add(system);
      if (system.index != null) {
        page.byIndex.put(system.index, system);
      }
    }
    return page;
  }

  private void add(ScoredBar bar, JsonNode b) {
    PageOf page = pages.get(bar.page);
    SystemOf system = null;
    if (page != null) {
      Object index = Trees.value(b.get("system"));
      system = index == null ? null : page.byIndex.get(index);
      if (system == null && bar.outline != null) {
        system = nearest(page, bar.outline);
      }
    }
    bar.position = bars.size();
    if (system != null) {
      system.bars.add(bar);
    }
    bars.add(bar);
  }

  private static @Nullable SystemOf nearest(PageOf page, double[][] outline) {
    return page.systems.stream()
        .filter(s -> s.outline != null)
        .min(Comparator.comparingDouble(s -> Math.abs(height(s.outline) - height(outline))))
        .orElse(null);
  }

  private static double height(double @Nullable [][] q) {
    return q == null ? 0 : (q[0][1] + q[1][1] + q[2][1] + q[3][1]) / 4;
  }

  /** Meters without the flag are taken as printed where the value changes. */
  private void inferPrintedMeters() {
    ScoredBar.MeterOf before = null;
    for (ScoredBar bar : bars) {
      if (!bar.printedKnown) {
        bar.printed = bar.meter != null && !bar.meter.equals(before);
      }
      before = bar.meter != null ? bar.meter : before;
    }
  }

  /** One type per barline: what the bar before and the bar after say about it, put together. */
  private static void settleBarlines(SystemOf system) {
    system.bars.sort(
        Comparator.comparingDouble(
            b -> b.outline == null ? 0 : Polygons.middle(b.outline[1], b.outline[2])[0]));
    for (int i = 0; i + 1 < system.bars.size(); i++) {
      ScoredBar x = system.bars.get(i);
      String start = system.bars.get(i + 1).start;
      if ("repeat-start".equals(start) || "repeat-both".equals(start)) {
        if (x.end.isEmpty() || x.end.equals("single") || x.end.equals("none")) {
          x.end = "repeat-start";
        } else if (x.end.equals("repeat-end")) {
          x.end = "repeat-both";
        }
      }
    }
  }

  /** Brings the coordinates of a page read at another size to the truth's page. */
  static void rescale(PageOf found, PageOf truth) {
    if (found.width == 0 || found.height == 0 || truth.width == 0 || truth.height == 0) {
      return;
    }
    double sx = truth.width / found.width;
    double sy = truth.height / found.height;
    if (Math.abs(sx - 1) < 1e-3 && Math.abs(sy - 1) < 1e-3) {
      return;
    }
    for (SystemOf system : found.systems) {
      system.outline = scaled(system.outline, sx, sy);
      system.staffSpace *= sy;
      for (ScoredBar bar : system.bars) {
        bar.outline = scaled(bar.outline, sx, sy);
      }
    }
  }

  private static double @Nullable [][] scaled(double @Nullable [][] q, double sx, double sy) {
    if (q == null) {
      return null;
    }
    double[][] r = new double[q.length][];
    for (int i = 0; i < q.length; i++) {
      r[i] = new double[] {q[i][0] * sx, q[i][1] * sy};
    }
    return r;
  }
}
