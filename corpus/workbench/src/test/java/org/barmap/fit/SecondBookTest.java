package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.barmap.extract.Extractor;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.Severity;
import org.barmap.page.PageResult;
import org.barmap.page.PageSource;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.SecondEvidence;
import org.barmap.reckon.second.SecondNumbers;
import org.barmap.sign.ReadPage;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The score of a whole show beside its book as the program reads it: the demo's nine pages, seven
 * numbers, 614 bars. The truth of the book is the oracle; each difference put into it is one
 * finding at its place.
 */
class SecondBookTest {

  private static BarMap read = BarMap.of(new Book("", ""), List.of(), List.of(), List.of());

  @BeforeAll
  static void reads() throws IOException {
    Path folder = CorpusReadings.HOME.resolve("saltmarsh");
    List<ReadPage> pages = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder);
        Extractor extractor = Extractor.open();
        PageSource source =
            new PageSource(
                files
                    .filter(f -> f.toString().matches(".*page-\\d+\\.(png|jpg)"))
                    .sorted()
                    .toList())) {
      while (source.hasNext()) {
        PageResult.Loaded loaded = (PageResult.Loaded) source.next();
        pages.add(extractor.readPage(loaded.page(), pages.size() + 1, new ArrayList<>()));
      }
    }
    read = new Reckoner().reckon(new Book("Saltmarsh", "Bass"), pages);
  }

  private record Case(String what, Consumer<TrueScore> made, int page, String text) {
    @Override
    public String toString() {
      return what;
    }
  }

  /** Numbers are counted as the book has them, without the tacet one: the sixth is No. 7. */
  static Stream<Case> differences() {
    return Stream.of(
        new Case("bar less", s -> s.remove(s.at(2, 86), 1), 3, "The second reading has no such"),
        new Case("bar more", s -> s.insert(s.at(4, 20), 1), 5, "The second reading has one bar"),
        new Case("rest", s -> s.insert(s.at(1, 80), 1), 2, "The second reading has 17 bars here"),
        new Case("12 more", s -> s.insert(s.at(5, 70), 12), 7, "The second reading has 12 bars"),
        new Case("8 less", s -> s.remove(s.at(5, 72), 8), 7, "The second reading lacks the 8"),
        new Case("letter", s -> s.mark(s.at(2, 75), "K"), 3, "The second reading has mark K here"),
        new Case(
            "movement less", s -> s.remove(s.at(4, 1), 104), 5, "The second reading has nothing"),
        new Case("pickup less", s -> s.remove(s.at(2, 0), 1), 2, "The second reading has no such"),
        new Case("number rested in", s -> rested(s, 4), 5, "The second reading has 60 bars"));
  }

  /** The score has a number before another one, in which this chair rests. */
  private static void rested(TrueScore s, int next) {
    int at = s.at(next, 1);
    Measure bar = TrueScore.plain(s.bars.get(at), true);
    List<Measure> more = new ArrayList<>();
    for (int i = 1; i <= 60; i++) {
      more.add(TrueScore.numbered(bar, Integer.toString(i), false));
    }
    s.bars.addAll(at, more);
  }

  @ParameterizedTest
  @MethodSource
  void differences(Case c) {
    List<Finding> found = found(score().with(c.made()));
    assertThat(found).extracting(Finding::text).hasSize(1).allMatch(t -> t.startsWith(c.text()));
    assertThat(found.get(0).page()).contains(c.page());
    assertThat(found.get(0).answers().get(0).correction()).isEmpty();
  }

  /** No. 3 is tacet in the book: what the score has between No. 2 and No. 4 is that. */
  @Test
  void aNumberThatIsTacetHereIsNoDifference() {
    TrueScore score = score();
    rested(score, 3);
    score.countedAnew();
    assertThat(found(score)).isEmpty();
  }

  /** Bars with letters are among those read, 23A and 23B. */
  @Test
  void anEqualScoreDiffersNowhere() {
    assertThat(found(score())).isEmpty();
  }

  @Test
  void aScoreCountedThroughTheShowAndOneWithAPickupCountedSayNothingOfTheRest() {
    TrueScore through = score();
    through.countedThrough();
    assertThat(found(through)).isEmpty();
    TrueScore pickup = score();
    int at = pickup.at(2, 0);
    for (int i = at; i < pickup.at(3, 1); i++) {
      pickup.bars.set(
          i, TrueScore.numbered(pickup.bars.get(i), Integer.toString(i - at + 1), false));
    }
    pickup.countedAnew();
    assertThat(found(pickup))
        .extracting(Finding::text)
        .containsExactly("The second reading calls this bar 1, the page 0.");
  }

  @Test
  void aRepeatWrittenOutAndABarSplitAtARepeatAreNoDifference() {
    TrueScore out = score();
    int from = out.at(1, 42);
    List<Measure> again = new ArrayList<>();
    for (int i = from; i < from + 8; i++) {
      out.bars.set(i, TrueScore.plain(out.bars.get(i), false));
      again.add(out.bars.get(i));
    }
    out.bars.addAll(from + 6, again.subList(0, 4));
    out.countedAnew();
    assertThat(found(out)).isEmpty();
    TrueScore split = score();
    int end = split.at(6, 27);
    split.bars.add(
        end + 1, TrueScore.numbered(TrueScore.plain(split.bars.get(end), false), "X1", true));
    assertThat(found(split)).allMatch(f -> f.code().equals(SecondNumbers.CODE));
  }

  @Test
  void aScoreOfOneNumberIsUsedAndWhatItLacksIsOnlyTold() {
    TrueScore score = score();
    int from = score.at(4, 1);
    score.remove(from + 104, score.bars.size() - from - 104);
    score.remove(0, from);
    assertThat(found(score)).hasSize(2).allMatch(f -> f.severity() == Severity.INFO);
  }

  @Test
  void severalDifferencesAreEachOneFinding() {
    TrueScore score = score();
    score.mark(score.at(5, 27), "Q");
    score.insert(score.at(4, 20), 1);
    score.remove(score.at(2, 86), 1);
    score.remove(score.at(1, 75), 1);
    score.countedAnew();
    assertThat(found(score))
        .extracting(f -> f.page().orElse(0))
        .containsExactlyInAnyOrder(2, 3, 5, 6);
  }

  @Test
  void theScoreOfOtherMusicIsNotUsed() {
    TrueScore score = score();
    java.util.Collections.shuffle(score.bars, new java.util.Random(5));
    score.countedThrough();
    BarMap settled = SecondEvidence.trusted().settle(read, score.part(), Fixed.NOTHING);
    assertThat(settled.bars()).isEqualTo(read.bars());
    assertThat(found(score)).extracting(Finding::code).containsExactly(SecondEvidence.CODE);
  }

  @Test
  void anotherChairsPartIsNamedAsSuchAndOtherwiseAgrees() {
    TrueScore score = score();
    score.bars.replaceAll(
        m ->
            new Measure(
                m.number(),
                m.implicit(),
                m.meter(),
                m.key(),
                false,
                0,
                m.start(),
                m.end(),
                m.times(),
                m.rehearsal(),
                m.ending(),
                m.signs()));
    score.countedAnew();
    assertThat(found(score)).extracting(Finding::code).containsExactly(SecondEvidence.CODE);
  }

  private static TrueScore score() {
    return new TrueScore(CorpusReadings.HOME.resolve("saltmarsh/saltmarsh.barmap.json"));
  }

  private static List<Finding> found(TrueScore score) {
    List<String> before = read.findings().stream().map(f -> f.bar() + f.text()).toList();
    BarMap settled = SecondEvidence.trusted().settle(read, score.part(), Fixed.NOTHING);
    return settled.findings().stream().filter(f -> !before.contains(f.bar() + f.text())).toList();
  }
}
