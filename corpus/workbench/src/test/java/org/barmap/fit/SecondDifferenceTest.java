package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.SecondEvidence;
import org.barmap.sign.ReadPage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * A score with one difference from a page as the program reads it: the difference is named once,
 * where it is. The page is the demo's first; its truth is the oracle.
 */
class SecondDifferenceTest {

  private static final String REST = "The second reading has %s here, the page %s.";
  private static final String MORE =
      "The second reading has one bar more here: a barline may be missing.";
  private static final String FEWER = "The second reading has no such bar.";

  private static final BarMap READ = read();

  private static BarMap read() {
    ReadPage page = CorpusReadings.read(CorpusReadings.HOME.resolve("saltmarsh/page-01.png"));
    return new Reckoner().reckon(new Book("", ""), List.of(page));
  }

  /**
   * One difference.
   *
   * @param what it is
   * @param made puts it in; positions are bar numbers less one
   * @param from first bar it may be named at
   * @param to the last one
   * @param text how the finding begins
   */
  private record Case(String what, Consumer<TrueScore> made, int from, int to, String text) {
    @Override
    public String toString() {
      return what;
    }
  }

  static Stream<Case> differences() {
    return Stream.of(
        new Case("rest longer", s -> s.insert(8, 1), 5, 5, REST.formatted("7 bars", "6 bars")),
        new Case("rest shorter", s -> s.remove(7, 1), 5, 5, REST.formatted("5 bars", "6 bars")),
        new Case("rest + 3", s -> s.insert(8, 3), 5, 5, REST.formatted("9 bars", "6 bars")),
        // nothing after it tells
        new Case("last", s -> s.insert(70, 1), 61, 61, REST.formatted("13 bars", "12 bars")),
        // within the run from B to the bar of 2/4
        new Case("bar more", s -> s.insert(29, 1), 26, 35, MORE),
        new Case("bar more, rest to mark", s -> s.insert(12, 1), 11, 13, MORE),
        new Case("bar less", s -> s.remove(15, 1), 14, 22, FEWER),
        new Case("7 bars more", s -> s.insert(29, 7), 26, 35, "The second reading has 7 bars more"),
        new Case("20 more", s -> s.insert(29, 20), 26, 35, "The second reading has 20 bars more"),
        new Case(
            "3 bars less", s -> s.remove(26, 3), 26, 35, "The second reading lacks the 3 bars"),
        new Case("mark less", s -> s.mark(25, ""), 26, 26, REST.formatted("no mark", "mark B")),
        new Case("mark more", s -> s.mark(19, "Z"), 20, 20, REST.formatted("mark Z", "no mark")),
        new Case("other mark", s -> s.mark(25, "H"), 26, 26, REST.formatted("mark H", "mark B")),
        new Case(
            "mark later",
            s -> {
              s.mark(25, "");
              s.mark(26, "B");
            },
            26,
            26,
            "The second reading has mark B one bar later."),
        unmarked("no marks, rest longer", 8, 1, 5, 5, REST.formatted("7 bars", "6 bars")),
        unmarked("no marks, rest + 3", 8, 3, 5, 5, REST.formatted("9 bars", "6 bars")),
        unmarked("no marks, bar more", 29, 1, 26, 35, MORE));
  }

  /** Bars more in a score without rehearsal marks. */
  private static Case unmarked(String name, int at, int more, int from, int to, String text) {
    return new Case(
        name,
        s -> {
          s.unmarked();
          s.insert(at, more);
        },
        from,
        to,
        text);
  }

  @ParameterizedTest
  @MethodSource
  void differences(Case c) {
    List<Finding> found = found(score().with(c.made()));
    assertThat(found).hasSize(1);
    Finding f = found.get(0);
    int number = READ.bar(f.bar().orElseThrow()).orElseThrow().number();
    assertThat(number).isBetween(c.from(), c.to());
    assertThat(f.text()).startsWith(c.text());
    assertThat(f.answers().get(0).correction()).isEmpty();
  }

  @Test
  void anEqualScoreDiffersNowhere() {
    assertThat(found(score())).isEmpty();
  }

  @Test
  void restsBrokenInAnotherWayAreNoDifference() {
    TrueScore score = score();
    score.multiRest(60, 5);
    score.multiRest(65, 7);
    assertThat(found(score)).isEmpty();
  }

  private static TrueScore score() {
    return new TrueScore(CorpusReadings.HOME.resolve("saltmarsh/page-01.json"));
  }

  /** What the second reading makes people be asked that they were not asked before. */
  private static List<Finding> found(TrueScore score) {
    List<String> before = READ.findings().stream().map(Finding::text).toList();
    BarMap settled = SecondEvidence.trusted().settle(READ, score.part(), Fixed.NOTHING);
    return settled.findings().stream().filter(f -> !before.contains(f.text())).toList();
  }
}
