package org.barmap.score;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/**
 * Compares a reading with its truth.
 *
 * <p>Systems are paired at outline overlap above 0.5, barlines within 0.75 staff space at
 * mid-staff, bar entries at overlap above 0.5; the left side of a system's first bar is forgiven.
 */
public final class Comparison {
  private final Tally tally = new Tally();
  private final List<ScoreError> errors = new ArrayList<>();
  private final ScoredMap truth;
  private final ScoredMap found;
  private final boolean everythingJudged;
  private final boolean marksJudged;
  private final boolean metersJudged;

  private Comparison(JsonNode truth, JsonNode found) {
    this.truth = ScoredMap.of(truth, true);
    this.found = ScoredMap.of(found, false);
    List<String> judged = new ArrayList<>();
    truth.path("judged").forEach(j -> judged.add(j.asString("")));
    everythingJudged = !truth.hasNonNull("judged");
    marksJudged = everythingJudged || judged.contains("rehearsal");
    metersJudged = everythingJudged || judged.contains("meter");
  }

  /**
   * Compares.
   *
   * @param truth a {@code barmap/1} tree in which a missing key means "not judged"
   * @param found a {@code barmap/1} tree
   * @throws IllegalArgumentException when a bar of the truth has no outline
   */
  public static Comparison of(JsonNode truth, JsonNode found) {
    Comparison c = new Comparison(truth, found);
    c.run();
    return c;
  }

  /** Returns the counts. */
  public Tally tally() {
    return tally;
  }

  /** Returns every difference, in the order of the truth. */
  public List<ScoreError> errors() {
    return List.copyOf(errors);
  }

  void error(String kind, Object page, String what) {
    String text = page instanceof Double d && d == Math.rint(d) ? "" + d.longValue() : "" + page;
    errors.add(new ScoreError(kind, text, what));
  }

  private void run() {
    tally.add("files", 1);
    tally.add("pages", truth.pages.size());
    Map<String, ScoredMap.PageOf> byStem = new HashMap<>();
    found.pages.values().stream()
        .filter(p -> !p.source.isEmpty())
        .forEach(p -> byStem.put(stem(p.source), p));
    Set<ScoredMap.PageOf> used = Collections.newSetFromMap(new IdentityHashMap<>());
    truth.pages.forEach(
        (index, page) -> {
          ScoredMap.PageOf read = found.pages.get(index);
          if (read == null && !page.source.isEmpty()) {
            read = byStem.get(stem(page.source));
          }
          List<ScoredMap.SystemOf> systems = List.of();
          if (read != null) {
            used.add(read);
            ScoredMap.rescale(read, page);
            systems = read.systems;
          }
          systems(index, page.systems, systems);
          if (everythingJudged) {
            SignTally.printedNumbers(tally, page.systems, systems);
          }
        });
    for (ScoredMap.PageOf page : found.pages.values()) {
      if (!used.contains(page)) {
        tally.add("sys_f", page.systems.size());
        tally.add("op_system", page.systems.size());
        tally.add("bl_f", page.systems.stream().mapToInt(s -> s.bars.size()).sum());
      }
    }
    tally.add("be_t", truth.bars.size());
    tally.add("be_f", found.bars.size());
    new BarComparison(this, tally, marksJudged, metersJudged, everythingJudged)
        .run(truth.bars, found.bars);
    new SignTally(tally, everythingJudged).run(truth.bars, found.bars);
  }

  private void systems(
      Object page, List<ScoredMap.SystemOf> truths, List<ScoredMap.SystemOf> founds) {
    tally.add("sys_t", truths.size());
    tally.add("sys_f", founds.size());
    Pairing pairing = new Pairing();
    for (int i = 0; i < truths.size(); i++) {
      for (int j = 0; j < founds.size(); j++) {
        double[][] a = truths.get(i).outline;
        double[][] b = founds.get(j).outline;
        double overlap = a == null || b == null ? 0 : Polygons.iou(a, b);
        if (overlap > .5) {
          pairing.offer(-overlap, i, j);
        }
      }
    }
    Map<Integer, Integer> pairs = pairing.pairs();
    tally.add("sys_tp", pairs.size());
    for (int j = 0; j < founds.size(); j++) {
      if (!pairs.containsValue(j)) {
        tally.add("bl_f", founds.get(j).bars.size());
        tally.add("op_system", 1);
        error("system-extra", page, "system found and not there");
      }
    }
    for (int i = 0; i < truths.size(); i++) {
      ScoredMap.SystemOf a = truths.get(i);
      tally.add("bl_t", a.bars.size());
      Integer j = pairs.get(i);
      if (j == null) {
        tally.add("op_system", 1);
        tally.add("op_bar", a.bars.size());
        error("system-missed", page, "system " + (i + 1));
      } else {
        new SystemComparison(this, tally, page, a, founds.get(j)).run();
      }
    }
  }

  private static String stem(String source) {
    String name = source.substring(source.lastIndexOf('/') + 1);
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }
}
