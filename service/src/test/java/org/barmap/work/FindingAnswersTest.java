package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.edit.Editing;
import org.barmap.edit.Outcome;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Settled;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.exchange.musicxml.MusicXmlReader;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.exchange.musicxml.write.MusicXmlWriter;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Content;
import org.barmap.map.Enclosure;
import org.barmap.map.Evidence;
import org.barmap.map.Evidence.Alternative;
import org.barmap.map.Finding;
import org.barmap.map.Meter;
import org.barmap.map.MusicalNumber;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.RehearsalMark;
import org.barmap.map.SecondReading;
import org.barmap.map.StaffSystem;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.SecondEvidence;
import org.barmap.reckon.Settler;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.write.FindingWriter;
import org.barmap.reckon.write.Item;
import org.barmap.reckon.write.UnsureSigns;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

/**
 * Every answer of every kind of finding is given, as the browser gives it, and settles the doubt:
 * it is not asked again.
 */
class FindingAnswersTest {

  /** Clicks every answer of every doubt of a map; which kinds there were, and which answers. */
  private static Set<String> clicked(BarMap map) {
    Draft draft = Draft.of(map);
    List<Finding> open = draft.open();
    Set<String> kinds = new TreeSet<>();
    for (Finding f : open) {
      assertThat(f.answers()).as(f.text()).isNotEmpty();
      for (Finding.Answer answer : f.answers()) {
        String kind = answer.correction().getOrDefault("kind", "");
        kinds.add((f.code() + " " + kind).strip());
        Draft after = answered(draft, f, answer);
        List<String> left = after.open().stream().map(Settled::key).toList();
        assertThat(left).as(f.text() + " " + answer.label()).doesNotContain(Settled.key(f));
      }
    }
    return kinds;
  }

  private static Draft answered(Draft draft, Finding f, Finding.Answer answer) {
    Correction correction =
        answer.correction().isEmpty()
            ? new PageCorrection.DismissDoubt(f.code(), f.bar(), f.page())
            : BarMapJson.mapper().convertValue(answer.correction(), Correction.class);
    Outcome outcome = Editing.correct(draft, correction);
    assertThat(outcome).as(f.text() + " " + answer.label()).isInstanceOf(Outcome.Done.class);
    return ((Outcome.Done) outcome).draft();
  }

  private static final Outline LINE = Outline.box(100, 200, 1300, 280);

  /** A line of entries; what their numerals and the numbers over them were read as. */
  private static BarMap line(List<List<Alternative>> counts, List<List<Alternative>> numbers) {
    int n = counts.size();
    List<Bar> bars =
        IntStream.range(0, n)
            .mapToObj(
                i ->
                    Bar.builder("b" + (i + 1), 1, 1, LINE.slice(i / (double) n, (i + 1.0) / n))
                        .number(i + 1)
                        .content(counts.get(i).isEmpty() ? Content.MUSIC : Content.MULTI_REST)
                        .count(counts.get(i).isEmpty() ? 1 : 4)
                        .evidence(
                            Optional.of(
                                new Evidence(
                                    counts.get(i).stream()
                                        .filter(a -> !a.text().isEmpty())
                                        .toList(),
                                    numbers.get(i),
                                    1)))
                        .build())
            .toList();
    List<StaffSystem> systems =
        List.of(new StaffSystem(1, LINE, 20, Optional.empty(), 1, List.of()));
    return BarMap.of(
        new Book("Saltmarsh", "Bass"),
        List.of(new Page(1, "page-01.png", 1400, 2000, systems)),
        List.of(),
        bars);
  }

  private static List<Alternative> says(String text, double probability) {
    return List.of(new Alternative(text, probability));
  }

  @Test
  void doubtsOfTheCounting() {
    List<Alternative> none = List.of();
    BarMap read =
        line(
            List.of(
                none,
                says("3", 0.9),
                none,
                none,
                says("", 0),
                none,
                List.of(new Alternative("6", 0.5), new Alternative("8", 0.45))),
            List.of(
                says("1", 0.99),
                none,
                says("10", 0.99),
                says("71", 0.6),
                says("12", 0.99),
                none,
                none));
    BarMap settled = new Settler().settle(read, Fixed.NOTHING);
    assertThat(clicked(settled))
        .containsExactlyInAnyOrder(
            "count-settled set-count",
            "count-missing set-count",
            "count-unsure set-count",
            "number-misread",
            "number-misread set-number");
  }

  @Test
  void doubtsOfLinesMarksAndBeginnings() {
    List<List<Alternative>> nothing =
        IntStream.range(0, 6).mapToObj(i -> List.<Alternative>of()).toList();
    List<List<Alternative>> first = new ArrayList<>(nothing);
    first.set(0, says("1", 0.99));
    BarMap map = line(nothing, first);
    List<Bar> bars = map.bars();
    List<Item> items =
        IntStream.range(0, 6)
            .mapToObj(
                i ->
                    new Item(
                        bars.get(i),
                        false,
                        true,
                        Optional.empty(),
                        1,
                        0,
                        List.of(),
                        i == 0,
                        i == 2))
            .toList();
    FindingWriter writer = new FindingWriter(Costs.DEFAULT, items);
    Outline third = bars.get(2).outline();
    writer.refused(2, third.leftMiddle().middle(third.rightMiddle()));
    writer.missing(4, 4);
    writer.start(4, "8");
    writer.content(1);
    writer.mark(1, "C", "");
    writer.mark(5, "D", "O");
    writer.add(UnsureSigns.mark(bars.get(3), new RehearsalMark("E", Enclosure.CIRCLE)));
    List<Reading> meters = List.of(new Reading("4/4", 0.5), new Reading("2/4", 0.4));
    Sign meter =
        new Sign(SignKind.METER, 1, 2, -2, 2, bars.get(3).outline(), 0.6, meters, Optional.empty());
    writer.add(UnsureSigns.meter(bars.get(3), new Meter(4, 4, true), meter));
    assertThat(clicked(inTwoNumbers(map, writer.write())))
        .containsExactlyInAnyOrder(
            "barline-missing",
            "barline-missing remove-barline",
            "barline-unsure",
            "barline-unsure remove-barline",
            "barline-refused",
            "barline-refused add-barline",
            "bars-missing",
            "bars-missing set-number",
            "number-start start-number",
            "number-start remove-number",
            "content-unsure set-content",
            "mark-settled set-rehearsal",
            "mark-settled remove-rehearsal",
            "mark-unsure set-rehearsal",
            "mark-unsure remove-rehearsal",
            "meter-unsure set-meter",
            "meter-unsure remove-meter");
  }

  /** The same bars, the last two of them in a number of their own, with these doubts. */
  private static BarMap inTwoNumbers(BarMap map, List<Finding> findings) {
    List<MusicalNumber> numbers =
        List.of(
            new MusicalNumber("7", "", Optional.of("b1"), Optional.of("b4"), false),
            new MusicalNumber("8", "", Optional.of("b5"), Optional.of("b6"), false));
    return new BarMap(map.format(), map.book(), map.pages(), numbers, map.bars(), findings);
  }

  /** The truth of the demo book, and a score of it with differences of every kind put in. */
  @Test
  void differencesOfASecondReading() throws Exception {
    BarMap truth =
        BarMapJson.read(
            Path.of(System.getProperty("barmap.home", ".."))
                .resolve("corpus/saltmarsh/saltmarsh.barmap.json"));
    Map<String, Bar> at = truth.barsById();
    List<Bar> score = new ArrayList<>(truth.bars());
    put(score, at, "b55", 1, b -> b.toBuilder().count(17).build());
    put(score, at, "b131", 0, b -> b);
    put(score, at, "b15", 2, b -> b);
    put(score, at, "b190", 13, b -> b);
    IntStream.range(357, 361).forEach(i -> put(score, at, "b" + i, 0, b -> b));
    put(score, at, "b69", 1, b -> marked(b, "K"));
    put(score, at, "b107", 1, b -> b.toBuilder().rehearsal(Optional.empty()).build());
    put(score, at, "b87", 1, b -> marked(b, "AA"));
    put(score, at, "b433", 1, b -> b.toBuilder().rehearsal(Optional.empty()).build());
    put(score, at, "b434", 1, b -> marked(b, "A"));
    IntStream.range(216, 289).forEach(i -> put(score, at, "b" + i, 0, b -> b));
    int before = score.indexOf(truth.bar("b178").orElseThrow());
    Bar like = truth.bar("b178").orElseThrow();
    for (int i = 60; i > 0; i--) {
      score.add(before, like.toBuilder().id("x").number(i).content(Content.REST).count(1).build());
    }
    // the page's names of inserted bars were not read, nor that the third number is tacet
    BarMap map =
        new BarMap(
            truth.format(),
            truth.book(),
            truth.pages(),
            truth.numbers().stream().filter(n -> !n.tacet()).toList(),
            truth.bars().stream().map(FindingAnswersTest::unnamed).toList(),
            List.of());
    BarMap settled = SecondEvidence.trusted().settle(map, part(truth, score), Fixed.NOTHING);
    // what numbers and prints say against each other is another test's
    assertThat(clicked(settled))
        .filteredOn(c -> c.startsWith("second-"))
        .containsExactlyInAnyOrder(
            "second-differs",
            "second-differs set-count",
            "second-bars",
            "second-bars add-barline",
            "second-bars remove-barline",
            "second-bars set-number",
            "second-bars add-tacet-number",
            "second-mark",
            "second-mark set-rehearsal",
            "second-mark remove-rehearsal",
            "second-mark move-rehearsal",
            "second-number",
            "second-number set-label");
    assertThat(
            settled.findings().stream()
                .collect(Collectors.groupingBy(Finding::code, Collectors.counting())))
        .isEqualTo(
            Map.of(
                "second-differs", 1L, "second-bars", 6L, "second-mark", 4L, "second-number", 1L));
  }

  /** As the page is read: every numeral, and not what an inserted bar is called. */
  private static Bar unnamed(Bar b) {
    List<Alternative> counts =
        b.content() == Content.MULTI_REST ? says(Integer.toString(b.count()), 0.97) : List.of();
    Optional<String> label = b.id().equals("b400") ? Optional.empty() : b.label();
    return b.toBuilder()
        .label(label)
        .evidence(Optional.of(new Evidence(counts, List.of(), 1)))
        .build();
  }

  private static Bar marked(Bar b, String mark) {
    return b.toBuilder().rehearsal(new RehearsalMark(mark, Enclosure.BOX)).build();
  }

  /** Puts a bar so often there, changed. */
  private static void put(
      List<Bar> score,
      Map<String, Bar> bars,
      String id,
      int times,
      java.util.function.UnaryOperator<Bar> change) {
    Bar bar = Optional.ofNullable(bars.get(id)).orElseThrow();
    int place = score.indexOf(bar);
    score.remove(place);
    for (int i = 0; i < times; i++) {
      score.add(place, change.apply(bar));
    }
  }

  private static SecondReading.Part part(BarMap truth, List<Bar> score)
      throws IOException, UnreadableMusicXmlException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MusicXmlWriter.write(truth.withBars(score), out);
    return MusicXmlReader.read("score", new ByteArrayInputStream(out.toByteArray())).parts().get(0);
  }
}
