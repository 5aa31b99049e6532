package org.barmap.reckon;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;
import org.barmap.map.BarMapJson;
import org.barmap.map.Barline;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Meter;
import org.barmap.map.SecondReading.Measure;
import org.barmap.map.SecondReading.Part;
import org.barmap.sign.ReadPage;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * A score with one difference from a page as the program reads it: the difference is named once,
 * where it is. The page is the demo's first; its truth is the oracle.
 */
class SecondDifferenceTest {

  private static final String TEXT = "The second reading has %s here, the page %s.";

  private static final BarMap READ = read();

  private final JsonNode truth = truth();
  private final List<Measure> score = score(truth);

  private static JsonNode truth() {
    try {
      return BarMapJson.mapper()
          .readTree(Files.readString(CorpusReadings.HOME.resolve("saltmarsh/page-01.json")));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static BarMap read() {
    ReadPage page = CorpusReadings.read(CorpusReadings.HOME.resolve("saltmarsh/page-01.png"));
    return new Reckoner().reckon(new Book("", ""), List.of(page));
  }

  @Test
  void anEqualScoreDiffersNowhere() {
    assertThat(differences()).isEmpty();
  }

  @Test
  void aLongerRestIsNamedAtTheRest() {
    insert(8, 1);
    assertOne(5, 5, TEXT.formatted("7 bars", "6 bars"));
  }

  @Test
  void aShorterRestIsNamedAtTheRest() {
    score.remove(7);
    assertOne(5, 5, TEXT.formatted("5 bars", "6 bars"));
  }

  @Test
  void aRestThreeBarsLongerIsNamedAtTheRest() {
    insert(8, 3);
    assertOne(5, 5, TEXT.formatted("9 bars", "6 bars"));
  }

  @Test
  void theLastRestIsAskedForAlthoughNothingAfterItTells() {
    insert(70, 1);
    Finding f = only();
    assertThat(number(f)).isEqualTo(61);
    assertThat(f.text()).startsWith(TEXT.formatted("13 bars", "12 bars"));
  }

  @Test
  void oneMoreBarOfMusicIsNamedAmongItsLikes() {
    insert(29, 1); // within the run from B to the bar of 2/4
    assertOne(26, 35, TEXT.formatted("2 bars", "one bar"));
  }

  @Test
  void oneMoreBarOfMusicBetweenRestAndMark() {
    insert(12, 1);
    assertOne(11, 13, TEXT.formatted("2 bars", "one bar"));
  }

  @Test
  void oneLessBarOfMusicIsNamedAmongItsLikes() {
    score.remove(15);
    assertOne(14, 22, "The second reading has no such bar.");
  }

  @Test
  void manyMoreBarsOfMusicAreOneDifference() {
    insert(29, 7);
    assertThat(differences()).hasSizeBetween(1, 2);
    assertThat(differences()).allSatisfy(f -> assertThat(number(f)).isBetween(26, 35));
  }

  @Test
  void fewerBarsOfMusicInARowAreOneDifference() {
    score.subList(26, 29).clear();
    assertThat(number(only())).isBetween(26, 35);
  }

  @Test
  void aMissingMarkIsNamedWhereThePageHasIt() {
    Measure m = score.get(25);
    assertThat(m.rehearsal()).contains("B");
    score.set(25, with(m, m.rest(), 0, Optional.empty()));
    assertOne(26, 26, TEXT.formatted("no mark", "mark B"));
  }

  @Test
  void aMarkThatThePageLacksIsNamed() {
    score.set(19, with(score.get(19), false, 0, Optional.of("Z")));
    assertOne(20, 20, TEXT.formatted("mark Z", "no mark"));
  }

  @Test
  void restsBrokenInAnotherWayAreNoDifference() {
    for (int i = 0; i < score.size(); i++) {
      Measure m = score.get(i);
      score.set(i, with(m, m.rest(), m.multiRest() == 12 ? 5 : 0, m.rehearsal()));
    }
    score.set(65, with(score.get(65), true, 7, Optional.empty()));
    assertThat(differences()).isEmpty();
  }

  @Test
  void aScoreWithoutMarksStillNamesTheRest() {
    unmarked();
    insert(8, 1);
    assertOne(5, 5, TEXT.formatted("7 bars", "6 bars"));
  }

  @Test
  void aScoreWithoutMarksStillNamesTheRestThreeBarsLonger() {
    unmarked();
    insert(8, 3);
    assertOne(5, 5, TEXT.formatted("9 bars", "6 bars"));
  }

  @Test
  void aScoreWithoutMarksStillNamesOneMoreBarOfMusic() {
    unmarked();
    insert(29, 1);
    assertOne(26, 35, TEXT.formatted("2 bars", "one bar"));
  }

  private void unmarked() {
    score.replaceAll(m -> with(m, m.rest(), m.multiRest(), Optional.empty()));
  }

  private void assertOne(int from, int to, String text) {
    Finding f = only();
    assertThat(number(f)).isBetween(from, to);
    assertThat(f.text()).isEqualTo(text);
  }

  private Finding only() {
    List<Finding> found = differences();
    assertThat(found).hasSize(1);
    return found.get(0);
  }

  private final BarMap map = READ;

  /** What the second reading makes people be asked that they were not asked before. */
  private List<Finding> differences() {
    List<String> before = map.findings().stream().map(Finding::text).toList();
    List<Measure> numbered = new ArrayList<>();
    for (Measure m : score) {
      numbered.add(numbered(m, Integer.toString(numbered.size() + 1)));
    }
    BarMap settled =
        SecondEvidence.trusted().settle(map, new Part("P1", "", numbered), Fixed.NOTHING);
    return settled.findings().stream().filter(f -> !before.contains(f.text())).toList();
  }

  private int number(Finding f) {
    return map.bar(f.bar().orElseThrow()).orElseThrow().number();
  }

  /** Puts bars like the one before there. */
  private void insert(int at, int n) {
    Measure like = score.get(at - 1);
    for (int i = 0; i < n; i++) {
      score.add(at, with(like, like.rest(), 0, Optional.empty()));
    }
  }

  private static Measure with(Measure m, boolean rest, int multiRest, Optional<String> mark) {
    return new Measure(
        m.number(),
        m.implicit(),
        m.meter(),
        m.key(),
        rest,
        multiRest,
        m.start(),
        m.end(),
        m.times(),
        mark,
        m.ending(),
        m.signs());
  }

  private static Measure numbered(Measure m, String number) {
    return new Measure(
        number,
        m.implicit(),
        m.meter(),
        m.key(),
        m.rest(),
        m.multiRest(),
        m.start(),
        m.end(),
        m.times(),
        m.rehearsal(),
        m.ending(),
        m.signs());
  }

  /** The truth's bars one by one, as the director's score has them: no rest is drawn together. */
  private static List<Measure> score(JsonNode truth) {
    List<Measure> out = new ArrayList<>();
    for (JsonNode bar : truth.path("bars")) {
      int count = bar.path("count").asInt(1);
      String mark = bar.at("/rehearsal/text").asString("");
      String end = bar.path("endBarline").asString("single");
      List<Integer> ending = new ArrayList<>();
      bar.path("ending").forEach(e -> ending.add(e.asInt()));
      String content = bar.path("content").asString("music");
      for (int i = 0; i < count; i++) {
        boolean starts = i == 0 && bar.path("startBarline").asString("").equals("repeat-start");
        out.add(
            new Measure(
                Integer.toString(out.size() + 1),
                false,
                Optional.of(
                    new Meter(
                        bar.at("/meter/beats").asInt(), bar.at("/meter/unit").asInt(), false)),
                Optional.empty(),
                content.endsWith("rest"),
                0,
                starts ? Barline.REPEAT_START : Barline.NONE,
                i < count - 1 ? Barline.SINGLE : barline(end),
                Optional.empty(),
                i == 0 && !mark.isEmpty() ? Optional.of(mark) : Optional.empty(),
                ending,
                List.of()));
      }
    }
    return out;
  }

  private static Barline barline(String word) {
    for (Barline b : Barline.values()) {
      if (b.word().equals(word)) {
        return b;
      }
    }
    return Barline.SINGLE;
  }
}
