package org.barmap.exchange.musicxml.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.MusicalNumber;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * What two general-purpose engravers make of the files: as many bars, and played in the same order.
 * They must be installed (Debian: musescore3, lilypond); run with {@code -Dbarmap.engravers=300}
 * for so many random books beside the demo book and the corpus. The table is in {@code
 * target/engravers}.
 */
@EnabledIfSystemProperty(named = "barmap.engravers", matches = "\\d+")
class EngraversTest {
  private static final Path HOME = Path.of(System.getProperty("barmap.home", ".."));

  private final Map<String, Expected> files = new LinkedHashMap<>();
  private Engravers engravers = new Engravers(HOME);

  /**
   * What a file should be.
   *
   * @param written bars
   * @param order of play, 0 for the first bar; empty for a book of several numbers
   */
  private record Expected(int written, List<Integer> order, String findings, String form) {}

  @Test
  void asManyBarsInTheSameOrder() throws Exception {
    Path folder = Path.of("target/engravers").toAbsolutePath();
    Files.createDirectories(folder);
    try (Stream<Path> old = Files.list(folder)) {
      for (Path file : old.toList()) {
        Files.delete(file);
      }
    }
    engravers = new Engravers(folder);
    books("saltmarsh", Scores.saltmarsh());
    if (!Boolean.getBoolean("barmap.engravers.one")) {
      corpus();
    }
    int random = Integer.getInteger("barmap.engravers", 100);
    for (int seed = 0; seed < random; seed++) {
      Knobs knobs = seed % 4 == 0 ? Knobs.simple() : Knobs.ordinary();
      books("random-" + seed, RandomBooks.book(500_000 + seed, knobs).map());
    }
    List<String> names = List.copyOf(files.keySet());
    Map<String, Engravers.Opened> muse = engravers.muse(names);
    Map<String, Integer> lily =
        Boolean.getBoolean("barmap.engravers.one") ? Map.of() : engravers.lily(names);
    Map<String, Integer> tally = new TreeMap<>();
    List<String> table = new ArrayList<>();
    for (String name : names) {
      Expected expected = Objects.requireNonNull(files.get(name));
      Engravers.Opened opened = muse.get(name);
      String bars =
          opened == null ? "not opened" : opened.written() == expected.written() ? "same" : "other";
      String order =
          opened == null || expected.order().isEmpty()
              ? "-"
              : opened.order().equals(expected.order())
                  ? "same"
                  : opened.order().size() == expected.order().size() ? "same length" : "other";
      String set =
          !lily.containsKey(name)
              ? "not set"
              : lily.get(name) == expected.written() ? "same" : "other " + lily.get(name);
      String kind = name.replaceAll("-.*", "") + (expected.order().isEmpty() ? " whole" : "");
      tally.merge(kind + ": muse bars " + bars, 1, Integer::sum);
      tally.merge(kind + ": muse order " + order, 1, Integer::sum);
      tally.merge(kind + ": lily bars " + set.replaceAll(" \\d+", ""), 1, Integer::sum);
      if (!bars.equals("same") || order.startsWith("other") || !set.equals("same")) {
        table.add(
            String.join(" | ", name, bars, order, set, expected.findings(), expected.form())
                + "\n   ours  "
                + expected.order()
                + "\n   muse  "
                + (opened == null ? "" : opened.order()));
      }
    }
    table.add(0, tally.toString().replace(", ", "\n"));
    Files.write(folder.resolve("table.txt"), table);
    assertThat(tally.keySet())
        .as(String.join("\n", table))
        .noneMatch(k -> k.endsWith("bars other") || k.endsWith("not opened"));
  }

  private void corpus() throws Exception {
    try (Stream<Path> pages = Files.list(HOME.resolve("corpus/pages"))) {
      for (Path page : pages.filter(p -> p.toString().endsWith(".json")).sorted().toList()) {
        BarMap map = BarMapJson.read(page);
        if (!map.bars().isEmpty()) {
          books("corpus-" + page.getFileName().toString().replace(".json", ""), map);
        }
      }
    }
  }

  /** The whole book, and every number alone. */
  private void books(String name, BarMap map) throws IOException {
    Plan plan = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL);
    if (map.numbers().isEmpty()) {
      put(name, map, map.bars(), plan, plan.numbers().get(0));
      return;
    }
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    MusicXmlWriter.write(map, whole);
    if (map.numbers().size() > 1 && !name.startsWith("random")) {
      engravers.put(name, whole.toByteArray());
      files.put(name, new Expected(map.writtenBars(), List.of(), "", ""));
    }
    for (int i = 0; i < map.numbers().size(); i++) {
      MusicalNumber number = map.numbers().get(i);
      List<Bar> bars = map.barsOf(number);
      if (!bars.isEmpty()) {
        ByteArrayOutputStream one = new ByteArrayOutputStream();
        MusicXmlWriter.write(map, number, one);
        NumberPlan planned =
            plan.numbers().stream()
                .filter(n -> n.label().equals(number.label()))
                .findFirst()
                .orElseThrow();
        String file = name + "-no" + (i + 1);
        engravers.put(file, one.toByteArray());
        expect(file, bars, plan, planned);
      }
    }
  }

  private void put(String name, BarMap map, List<Bar> bars, Plan plan, NumberPlan planned)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MusicXmlWriter.write(map, out);
    engravers.put(name, out.toByteArray());
    expect(name, bars, plan, planned);
  }

  private void expect(String name, List<Bar> bars, Plan plan, NumberPlan planned) {
    Map<String, Integer> starts = new HashMap<>();
    Map<String, Integer> counts = new HashMap<>();
    int at = 0;
    StringBuilder form = new StringBuilder();
    for (Bar bar : bars) {
      starts.put(bar.id(), at);
      counts.put(bar.id(), bar.count());
      form.append(said(bar, at));
      at += bar.count();
    }
    List<Integer> order = new ArrayList<>();
    for (NumberPlan.Entry entry : planned.order()) {
      int from = entry.from().orElse(1) - 1;
      int many = entry.bars().orElse(counts.getOrDefault(entry.bar(), 1));
      for (int k = 0; k < many; k++) {
        order.add(starts.getOrDefault(entry.bar(), -1) + from + k);
      }
    }
    String findings =
        String.join(",", plan.findings().stream().map(f -> f.code()).distinct().toList());
    files.put(name, new Expected(at, order, findings, form.toString()));
  }

  private static String said(Bar bar, int at) {
    String signs =
        (Lines.opens(bar.startBarline()) ? "|:" : "")
            + (bar.ending().isEmpty() ? "" : bar.ending())
            + bar.signs()
            + bar.times().map(t -> "x" + t).orElse("")
            + (Lines.sendsBack(bar.endBarline()) ? ":|" : "")
            + (Lines.opens(bar.endBarline()) ? "|:" : "")
            + bar.words().stream().map(w -> "'" + w.text() + "'").toList();
    String plain = signs.replace("[]", "");
    return plain.isEmpty() ? "" : at + plain + " ";
  }
}
