package org.barmap.exchange.musicxml.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.exchange.PlayableMap;
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
import org.jspecify.annotations.Nullable;
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

  /** What a book has that an engraver doesn't play, or set, as it is meant. */
  private enum Limit {
    /** A repeat inside a repeat: LilyPond's converter knows one level. */
    NESTED,
    /** A pickup that isn't the file's first bar is taken for the rest of the bar before it. */
    PICKUP_INSIDE,
    /** Of more than two endings without {@code times} the others are dropped. */
    THIRD_ENDING
  }

  /**
   * What a file should be.
   *
   * @param written bars
   * @param order of play, 0 for the first bar; empty for a book of several numbers
   * @param named what the file itself says may be played otherwise
   */
  private record Expected(
      int written, List<Integer> order, Set<Limit> limits, List<String> named, String form) {}

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
    if (wanted("corpus")) {
      corpus();
    }
    int random = Integer.getInteger("barmap.engravers", 100);
    for (int seed = 0; seed < random; seed++) {
      Knobs knobs = seed % 4 == 0 ? Knobs.simple() : Knobs.wild();
      books("random-" + seed, RandomBooks.book(500_000 + seed, knobs).map());
    }
    List<String> names = List.copyOf(files.keySet());
    Files.write(folder.resolve("forms.txt"), forms());
    Map<String, Engravers.Opened> muse = wanted("muse") ? engravers.muse(names) : Map.of();
    Map<String, Integer> lily = wanted("lily") ? engravers.lily(names) : Map.of();
    Map<String, Integer> tally = new TreeMap<>();
    List<String> table = new ArrayList<>();
    for (String name : names) {
      Expected expected = Objects.requireNonNull(files.get(name));
      List<String> came = came(expected, muse.get(name), lily.get(name));
      String kind = name.replaceAll("-.*", "") + (expected.order().isEmpty() ? " whole: " : ": ");
      came.forEach(c -> tally.merge(kind + c, 1, Integer::sum));
      if (came.stream().anyMatch(c -> c.contains("other"))) {
        table.add(name + " " + came + "\n   " + expected.form() + "\n   " + expected.named());
        table.add("   ours " + expected.order());
        table.add(
            "   muse "
                + Optional.ofNullable(muse.get(name))
                    .map(Engravers.Opened::order)
                    .orElse(List.of()));
      }
    }
    table.add(0, tally.toString().replace(", ", "\n"));
    Files.write(folder.resolve("table.txt"), table);
    assertThat(tally.keySet()).as(String.join("\n", table)).noneMatch(k -> k.endsWith("nothing"));
  }

  /** Parts of the run may be left out: {@code -Dbarmap.engravers.without=corpus,lily}. */
  private static boolean wanted(String part) {
    return !List.of(System.getProperty("barmap.engravers.without", "").split(",")).contains(part);
  }

  private List<String> forms() {
    List<String> lines = new ArrayList<>();
    files.forEach(
        (name, file) ->
            lines.add(
                Stream.of(name, file.written(), file.limits(), file.order(), file.named())
                        .map(String::valueOf)
                        .collect(Collectors.joining("\t"))
                    + "\t"
                    + file.form()));
    return lines;
  }

  /**
   * Three endings as the standard writes them, plain notes, nothing of ours: the converter of
   * LilyPond counts two times through where no {@code times} stands, and LilyPond drops the third
   * ending. With {@code times} its bars are all there, which is what a file for playing says.
   */
  @Test
  void aThirdEndingIsLostByTheConverter() throws Exception {
    Path folder = Files.createTempDirectory("endings");
    Engravers two = new Engravers(folder);
    String xml =
        new String(
            Objects.requireNonNull(
                    EngraversTest.class.getResourceAsStream(
                        "/org/barmap/exchange/musicxml/three-endings.musicxml"))
                .readAllBytes(),
            StandardCharsets.UTF_8);
    two.put("plain", xml.getBytes(StandardCharsets.UTF_8));
    String first = "<repeat direction=\"backward\"";
    two.put("times", xml.replace(first, first + " times=\"3\"").getBytes(StandardCharsets.UTF_8));

    assertThat(two.lily(List.of("plain", "times"))).isEqualTo(Map.of("plain", 3, "times", 4));
  }

  /** Says what came of a file, and what an engraver can't do with it where that came otherwise. */
  private static List<String> came(
      Expected expected, Engravers.@Nullable Opened muse, @Nullable Integer lily) {
    List<String> came = new ArrayList<>();
    if (wanted("muse")) {
      boolean bars = muse != null && muse.written() == expected.written();
      boolean order = muse != null && muse.order().equals(expected.order());
      boolean named = !expected.named().isEmpty();
      came.add("muse bars " + (bars ? "same" : "other: nothing"));
      if (!expected.order().isEmpty()) {
        came.add(
            order
                ? "muse order same" + (named ? ", though named" : "")
                : "muse order other" + (named ? ", named" : ": nothing"));
      }
    }
    if (wanted("lily")) {
      boolean set = lily != null && lily == expected.written();
      came.add("lily bars " + (set ? "same" : "other: " + because(expected)));
    }
    return came;
  }

  private static String because(Expected expected) {
    return expected.limits().stream()
        .map(l -> l.name().toLowerCase(Locale.ROOT))
        .collect(
            Collectors.collectingAndThen(
                Collectors.joining("+"), l -> l.isEmpty() ? "nothing" : l));
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
      files.put(
          name, new Expected(map.writtenBars(), List.of(), limits(map.bars()), List.of(), ""));
    }
    for (int i = 0; i < map.numbers().size(); i++) {
      MusicalNumber number = map.numbers().get(i);
      List<Bar> bars = map.barsOf(number);
      if (!bars.isEmpty()) {
        ByteArrayOutputStream one = new ByteArrayOutputStream();
        MusicXmlWriter.write(map, number, one);
        String file = name + "-no" + (i + 1);
        engravers.put(file, one.toByteArray());
        expect(file, bars, number(plan, number), named(NotSaid.of(map, number)));
        playable("playable_" + file, map, number);
      }
    }
  }

  /** The same number with signs a program plays as the plan does: nothing may be other there. */
  private void playable(String file, BarMap map, MusicalNumber number) throws IOException {
    BarMap written = PlayableMap.of(map, true);
    MusicalNumber its = MusicXmlWriter.number(written, number.label()).orElseThrow();
    ByteArrayOutputStream one = new ByteArrayOutputStream();
    MusicXmlWriter.write(written, its, one);
    engravers.put(file, one.toByteArray());
    // words as "3X" are for people; a program goes by the signs
    List<Bar> signs =
        written.bars().stream().map(b -> b.toBuilder().words(List.of()).build()).toList();
    Plan plan = Planner.plan(written.withBars(signs), ShowChanges.none(), PlanSettings.USUAL);
    expect(file, written.barsOf(its), number(plan, its), List.of());
  }

  private static NumberPlan number(Plan plan, MusicalNumber number) {
    return plan.numbers().stream()
        .filter(n -> n.label().equals(number.label()))
        .findFirst()
        .orElseThrow();
  }

  private static List<String> named(List<NotSaid> all) {
    return all.stream().filter(NotSaid::order).map(NotSaid::says).toList();
  }

  private void put(String name, BarMap map, List<Bar> bars, Plan plan, NumberPlan planned)
      throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MusicXmlWriter.write(map, out);
    engravers.put(name, out.toByteArray());
    expect(name, bars, planned, named(NotSaid.of(map)));
  }

  private void expect(String name, List<Bar> bars, NumberPlan planned, List<String> named) {
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
    files.put(name, new Expected(at, order, limits(bars), named, form.toString()));
  }

  private static Set<Limit> limits(List<Bar> bars) {
    Set<Limit> limits = EnumSet.noneOf(Limit.class);
    boolean inside = false;
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      boolean opens =
          bar.startBarline().startsRepeat()
              || (i > 0 && bars.get(i - 1).endBarline().startsRepeat());
      add(limits, Limit.NESTED, opens && inside);
      inside = (inside || opens) && !bar.endBarline().endsRepeat();
      add(
          limits,
          Limit.THIRD_ENDING,
          bar.times().isEmpty() && bar.ending().stream().anyMatch(n -> n > 2));
      add(limits, Limit.PICKUP_INSIDE, i > 0 && bar.number() == 0 && bar.label().isEmpty());
    }
    return limits;
  }

  private static void add(Set<Limit> limits, Limit limit, boolean there) {
    if (there) {
      limits.add(limit);
    }
  }

  private static String said(Bar bar, int at) {
    String signs =
        (bar.startBarline().startsRepeat() ? "|:" : "")
            + (bar.ending().isEmpty() ? "" : bar.ending())
            + bar.signs()
            + bar.times().map(t -> "x" + t).orElse("")
            + (bar.endBarline().endsRepeat() ? ":|" : "")
            + (bar.endBarline().startsRepeat() ? "|:" : "")
            + bar.words().stream().map(w -> "'" + w.text() + "'").toList();
    String plain = signs.replace("[]", "");
    return plain.isEmpty() ? "" : at + plain + " ";
  }
}
