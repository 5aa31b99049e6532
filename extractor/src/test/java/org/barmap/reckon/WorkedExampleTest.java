package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.book.Weights;
import org.barmap.reckon.cost.Costs;
import org.barmap.reckon.solve.Move;
import org.barmap.reckon.solve.Observe;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;

/**
 * The settled misreading that DEVELOPERS.md tells step by step, in the order of its steps; the
 * numbers are invented.
 */
class WorkedExampleTest {

  private static final Costs COSTS = Costs.DEFAULT;
  private static final List<Reading> NUMERAL =
      List.of(new Reading("3", 0.55), new Reading("8", 0.40));
  private static final List<Reading> PRINTED = List.of(new Reading("69", 0.95));

  @Test
  void takingTheSecondReadingCostsAFractionOfANat() {
    Move rest = Weights.rest(NUMERAL, 1, COSTS);
    assertThat(Math.log(rest.weight(3 - 1) / rest.weight(8 - 1))).isBetween(0.05, 0.9);
  }

  @Test
  void takingTheFirstCostsSeveralNatsEitherWay() {
    Observe print = Weights.printed(PRINTED, 1, COSTS);
    assertThat(Math.log(weight(print, 69) / weight(print, 64))).isBetween(6.0, 8.5);
    assertThat(-Math.log(Weights.system(COSTS).weight(69 - 64))).isBetween(7.0, 9.0);
    assertThat(COSTS.numerals().oneFigure()).isBetween(0.12, 0.3);
  }

  private static double weight(Observe print, int number) {
    double[] only = new double[100];
    only[number] = 1;
    double[] out = new double[100];
    print.sum(only, out);
    return out[number];
  }

  @Test
  void soTheRestIsEightAndOneFindingSaysWhy() {
    BarMap map = map();
    assertThat(map.bars()).extracting(Bar::number).containsExactly(57, 58, 59, 60, 68, 69);
    assertThat(map.bars().get(3).count()).isEqualTo(8);
    assertThat(map.findings()).hasSize(1);
    Finding finding = map.findings().get(0);
    assertThat(finding.code()).isEqualTo("count-settled");
    assertThat(finding.text())
        .isEqualTo("The numeral looks like 3, but the numbers printed around it ask for 8.");
    assertThat(finding.answers())
        .extracting(Finding.Answer::label)
        .containsExactly("This rest is 8", "This rest is 3");
  }

  @Test
  void aPersonWhoSaysThreeIsBelieved() {
    BarMap map = map();
    List<Bar> bars = new ArrayList<>(map.bars());
    String rest = bars.get(3).id();
    bars.set(3, bars.get(3).toBuilder().count(3).build());
    BarMap settled =
        new Settler().settle(map.withBars(bars), new Fixed(Set.of(rest), Set.of(), Set.of(rest)));
    assertThat(settled.bars().get(3).count()).isEqualTo(3);
    assertThat(settled.bars().get(4).number()).isEqualTo(63);
  }

  @Test
  void theDeveloperGuideSaysTheSame() throws IOException {
    String guide =
        Files.readString(Path.of(System.getProperty("barmap.home", "..")).resolve("DEVELOPERS.md"));
    assertThat(guide)
        .contains("A line begins at a printed 57 and the next one at a printed 69.")
        .contains("looks like 3 (probability 0.55) or 8 (0.40)")
        .contains("the reader gives 69 a probability of 0.95")
        .contains(map().findings().get(0).text());
    map()
        .findings()
        .get(0)
        .answers()
        .forEach(a -> assertThat(guide).contains("\"" + a.label() + "\""));
  }

  private static BarMap map() {
    List<Sign> first = new ArrayList<>();
    first.add(sign(SignKind.BAR_NUMBER, 1, new Reading("57", 0.97)));
    for (double at : new double[] {25, 45, 65}) {
      first.add(sign(SignKind.BARLINE, at, new Reading("single", 1)));
    }
    first.add(sign(SignKind.MULTI_REST, 75));
    first.add(sign(SignKind.COUNT, 75, NUMERAL.toArray(Reading[]::new)));
    first.add(sign(SignKind.BARLINE, 85, new Reading("single", 1)));
    first.add(sign(SignKind.BARLINE, 100, new Reading("single", 1)));
    first.add(sign(SignKind.REST, 92));
    List<Sign> second = new ArrayList<>();
    second.add(sign(SignKind.BAR_NUMBER, 1, PRINTED.toArray(Reading[]::new)));
    second.add(sign(SignKind.BARLINE, 100, new Reading("single", 1)));
    ReadPage page =
        new ReadPage(1, "page.png", 1000, 1000, List.of(system(1, first), system(2, second)));
    return new Reckoner().reckon(new Book("Saltmarsh", "Bass"), List.of(page));
  }

  private static Sign sign(SignKind kind, double at, Reading... readings) {
    return new Sign(
        kind,
        at - 0.5,
        at + 0.5,
        -2,
        2,
        Outline.box(at, 0, at, 40),
        0.99,
        List.of(readings),
        Optional.empty());
  }

  private static ReadSystem system(int index, List<Sign> signs) {
    StaffSystem staff =
        new StaffSystem(index, Outline.box(0, 0, 1000, 40), 10, Optional.empty(), 1, List.of());
    return new ReadSystem(staff, 100, (from, to) -> Outline.box(from * 10, 0, to * 10, 40), signs);
  }
}
