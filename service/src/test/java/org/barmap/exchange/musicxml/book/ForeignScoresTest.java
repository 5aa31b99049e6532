package org.barmap.exchange.musicxml.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.map.Finding;
import org.barmap.map.json.BarMapJson;
import org.barmap.map.rule.BarMapRules;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;

/**
 * Every file of a folder of other people's scores becomes a book or is refused with a reason; where
 * {@code barmap.scores.orders} has a {@code NAME.mpos} for it (MuseScore 3: {@code mscore3 -o
 * NAME.mpos NAME}, which lists measures in the order it plays them), both orders are compared. The
 * table is {@code service/target/scores.tsv}.
 */
class ForeignScoresTest {
  private static final Pattern EVENT = Pattern.compile("<event elid=\"(\\d+)\"");
  private static final Pattern ELEMENT = Pattern.compile("<element id=\"(\\d+)\"");

  @Test
  @EnabledIfSystemProperty(named = "barmap.scores", matches = ".+")
  void everyFileIsABookOrRefusedWithAReason() throws Exception {
    List<Path> files;
    try (Stream<Path> all = Files.list(Path.of(System.getProperty("barmap.scores")))) {
      files = all.sorted().toList();
    }
    List<String> table = new ArrayList<>();
    for (Path file : files) {
      table.add(line(file));
    }
    Files.createDirectories(Path.of("target"));
    Files.write(Path.of("target/scores.tsv"), table);
    assertThat(table).isNotEmpty();
  }

  private static String line(Path file) throws Exception {
    String name = String.valueOf(file.getFileName());
    try (InputStream in = Files.newInputStream(file)) {
      ScoreBook score = ScoreBook.read(name, in);
      String first = "";
      for (int part = 0; part < score.parts().size(); part++) {
        ImportedBook book = score.book(part);
        assertThat(BarMapRules.check(book.map())).as(name).isEmpty();
        assertThat(BarMapJson.read(BarMapJson.write(book.map()))).as(name).isEqualTo(book.map());
        Plan plan = Planner.plan(book.map(), ShowChanges.none(), PlanSettings.USUAL);
        if (part == 0) {
          first = compared(name, book, plan);
        }
      }
      return name + "\tbook\t" + score.parts().size() + "\t" + first;
    } catch (UnreadableMusicXmlException e) {
      return name + "\trefused\t\t" + e.getMessage();
    }
  }

  private static String compared(String name, ImportedBook book, Plan plan) throws Exception {
    List<Integer> ours = order(book, plan);
    int measures = book.made().stream().mapToInt(ImportedBook.Source::measures).sum();
    String findings =
        Stream.concat(
                plan.findings().stream().map(f -> f.code()),
                book.map().findings().stream()
                    .map(Finding::code)
                    .filter(c -> !c.equals("score-left-out")))
            .distinct()
            .collect(Collectors.joining(","));
    Path other = Path.of(System.getProperty("barmap.scores.orders", "none"), name + ".mpos");
    if (!Files.exists(other)) {
      return measures
          + "\t"
          + ours.size()
          + "\t-\t-\tnot compared\t"
          + findings
          + "\t"
          + ranges(ours)
          + "\t";
    }
    String xml = Files.readString(other, StandardCharsets.UTF_8);
    List<Integer> theirs = numbers(EVENT, xml);
    int there = numbers(ELEMENT, xml).size();
    List<Integer> entries = entries(book, plan);
    boolean drawn = there == book.made().size() && entries.equals(theirs);
    String same = ours.equals(theirs) ? "same" : drawn ? "same, by entries" : "other";
    return String.join(
        "\t",
        String.valueOf(measures),
        String.valueOf(ours.size()),
        String.valueOf(there),
        String.valueOf(theirs.size()),
        same,
        findings,
        ranges(ours),
        same.equals("other") ? ranges(theirs) : "");
  }

  private static List<Integer> numbers(Pattern pattern, String xml) {
    List<Integer> numbers = new ArrayList<>();
    Matcher m = pattern.matcher(xml);
    while (m.find()) {
      numbers.add(Integer.valueOf(m.group(1)));
    }
    return numbers;
  }

  /** Indices of measures in the order they are played. */
  private static List<Integer> order(ImportedBook book, Plan plan) {
    Map<String, ImportedBook.Source> sources = new HashMap<>();
    for (int i = 0; i < book.made().size(); i++) {
      sources.put(book.map().bars().get(i).id(), book.made().get(i));
    }
    List<Integer> order = new ArrayList<>();
    plan.numbers().stream()
        .flatMap(n -> n.order().stream())
        .map(e -> sources.get(e.bar()))
        .forEach(
            s -> {
              for (int k = 0; k < s.measures(); k++) {
                order.add(s.first() + k);
              }
            });
    return order;
  }

  /** Indices of entries in the order they are played: there a rest of several bars is one. */
  private static List<Integer> entries(ImportedBook book, Plan plan) {
    return plan.numbers().stream()
        .flatMap(n -> n.order().stream())
        .map(e -> book.map().indexOf(e.bar()))
        .toList();
  }

  /** 0-3 0-4: what follows on is drawn together. */
  private static String ranges(List<Integer> order) {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < order.size(); ) {
      int k = i;
      while (k + 1 < order.size() && order.get(k + 1) == order.get(k) + 1) {
        k++;
      }
      text.append(text.length() == 0 ? "" : " ").append(order.get(i));
      text.append(k == i ? "" : "-" + order.get(k));
      i = k + 1;
    }
    return text.toString();
  }
}
