package org.barmap.reckon.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.map.StaffSystem;
import org.barmap.reckon.Fixed;
import org.barmap.reckon.OnLine;
import org.barmap.reckon.Reckoner;
import org.barmap.reckon.Settler;
import org.barmap.sign.ReadPage;
import org.barmap.sign.ReadSystem;
import org.barmap.sign.kind.Reading;
import org.barmap.sign.kind.Sign;
import org.barmap.sign.kind.SignKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Second endings that are numbered like the first ones; made books, numbers drawn from seeds. That
 * editions number endings either way is common practice.
 */
class EndingNumbersTest {

  /** Four lines: 1 to 5; 6, first ending 7 and 8; second ending 7 and 8 (or 9 and 10); on. */
  private static ReadPage page(int index, boolean alike, boolean printed, String heading) {
    List<ReadSystem> lines = new ArrayList<>();
    lines.add(line(1, 1, false, heading, 5));
    Line ending = new Line(2, printed ? 6 : 0, "", 3);
    ending.signs.add(ending(ending.at(1), ending.at(3), "1."));
    ending.end = "repeat-end";
    lines.add(ending.read());
    Line second = new Line(3, printed ? (alike ? 7 : 9) : 0, "", 4);
    second.signs.add(ending(0.5, second.at(2), "2."));
    lines.add(second.read());
    lines.add(line(4, alike ? 11 : 13, printed, "", 4));
    lines.add(line(5, alike ? 15 : 17, printed, "", 4));
    return new ReadPage(index, "page.png", 1000, 1000, lines);
  }

  private static final List<Integer> ALIKE =
      List.of(1, 2, 3, 4, 5, 6, 7, 8, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18);

  private static final List<Integer> STRAIGHT =
      LongStream.rangeClosed(1, 20).mapToObj(n -> (int) n).toList();

  private static void assertNumbered(ReadPage page, List<Integer> numbers) {
    BarMap map = reckon(page);
    assertThat(map.bars()).extracting(Bar::number).isEqualTo(numbers);
    assertThat(map.findings()).isEmpty();
  }

  @Test
  void aPrintThatCountsTheSecondEndingLikeTheFirstIsFollowedWithoutAFinding() {
    assertNumbered(page(1, true, true, "No. 1"), ALIKE);
  }

  @Test
  void aPrintThatCountsStraightThroughStaysAsItIs() {
    assertNumbered(page(1, false, true, "No. 1"), STRAIGHT);
  }

  @Test
  void aPrintWithoutNumbersIsCountedStraightThrough() {
    assertNumbered(page(1, true, false, "No. 1"), STRAIGHT);
  }

  @Test
  void aMusicalNumberWithoutPrintedNumbersIsCountedLikeTheRestOfItsBook() {
    BarMap map = reckon(page(1, true, true, "No. 1"), page(2, true, false, "No. 2"));
    List<Integer> numbers = map.bars().stream().map(Bar::number).toList();
    assertThat(numbers.subList(0, 20)).isEqualTo(ALIKE);
    assertThat(numbers.subList(20, 40)).isEqualTo(ALIKE);
    assertThat(map.findings()).isEmpty();
  }

  @Test
  void eachMusicalNumberIsCountedAsItsOwnPrintSays() {
    BarMap map =
        reckon(
            page(1, true, true, "No. 1"),
            page(2, false, true, "No. 2"),
            page(3, true, true, "No. 3"));
    List<Integer> numbers = map.bars().stream().map(Bar::number).toList();
    assertThat(numbers.subList(0, 20)).isEqualTo(ALIKE);
    assertThat(numbers.subList(20, 40)).isEqualTo(STRAIGHT);
    assertThat(numbers.subList(40, 60)).isEqualTo(ALIKE);
    assertThat(map.findings()).isEmpty();
  }

  @Test
  void aRestInTheFirstEndingIsWhatTheNumbersAskForAlthoughCountingGoesBackOverIt() {
    // first ending 7 to 11 with a rest of 4 in it, read as 1 or 4; the second one begins at 7
    List<ReadSystem> lines = new ArrayList<>();
    lines.add(line(1, 1, false, "No. 1", 5));
    Line ending = new Line(2, 6, "", 3);
    ending.signs.add(ending(ending.at(1), ending.at(3), "1."));
    ending.signs.add(sign(SignKind.MULTI_REST, ending.at(1) + 3, ending.at(2) - 3));
    double middle = (ending.at(1) + ending.at(2)) / 2;
    ending.signs.add(
        sign(
            SignKind.COUNT, middle - 1, middle + 1, new Reading("1", 0.55), new Reading("4", 0.4)));
    ending.end = "single";
    // the bracket goes on over the line break; its last bar is 11
    Line last = new Line(3, 12, "", 1);
    last.signs.add(sign(SignKind.ENDING, 0.5, last.at(1), new Reading(Sign.GOES_ON, 1)));
    last.end = "repeat-end";
    lines.add(ending.read());
    lines.add(last.read());
    Line second = new Line(4, 7, "", 4);
    second.signs.add(ending(0.5, second.at(1), "2."));
    lines.add(second.read());
    lines.add(line(5, 11, true, "", 4));
    BarMap map = reckon(new ReadPage(1, "page.png", 1000, 1000, lines));
    assertThat(map.bars())
        .extracting(Bar::number)
        .containsExactly(1, 2, 3, 4, 5, 6, 7, 11, 12, 7, 8, 9, 10, 11, 12, 13, 14);
    assertThat(map.bars().get(6).count()).isEqualTo(4);
    assertThat(map.findings()).extracting(Finding::code).containsExactly("count-settled");
  }

  @Test
  void settlingAgainKeepsIt() {
    BarMap map = reckon(page(1, true, true, "No. 1"), page(2, true, false, "No. 2"));
    BarMap again = new Settler().settle(map, Fixed.NOTHING);
    assertThat(again.bars()).isEqualTo(map.bars());
    assertThat(again.findings()).isEmpty();
  }

  @Test
  void aPersonsNumberAtTheSecondEndingIsTakenAndCountedOnFrom() {
    BarMap map = reckon(page(1, true, false, "No. 1"), page(2, true, true, "No. 2"));
    assertThat(map.bars()).extracting(Bar::number).startsWith(1, 2, 3, 4, 5, 6, 7, 8, 7, 8);
    List<Bar> bars = new ArrayList<>(map.bars());
    bars.set(8, bars.get(8).toBuilder().number(9).build());
    Fixed fixed = new Fixed(Set.of(), Set.of(bars.get(8).id()), Set.of());
    BarMap set = new Settler().settle(map.withBars(bars), fixed);
    List<Integer> numbers = set.bars().stream().map(Bar::number).toList();
    assertThat(numbers.subList(0, 20)).isEqualTo(STRAIGHT);
    assertThat(numbers.subList(20, 40)).isEqualTo(ALIKE);
  }

  static Stream<Long> seeds() {
    return LongStream.range(600, 640).boxed();
  }

  /** Whole books of either kind, with signs read wrong. */
  @ParameterizedTest
  @MethodSource("seeds")
  void booksOfEitherKindAreCountedAsTheyArePrinted(long seed) {
    Random random = new Random(seed);
    boolean alike = seed % 2 == 0;
    List<ReadPage> pages = new ArrayList<>();
    List<Integer> truth = new ArrayList<>();
    for (int p = 1; p <= 3; p++) {
      pages.add(random(p, alike, random, truth));
    }
    BarMap map = reckon(pages.toArray(ReadPage[]::new));
    assertThat(map.bars()).extracting(Bar::number).isEqualTo(truth);
  }

  /** A musical number with two repeats; one printed number in twelve is misread. */
  private static ReadPage random(int index, boolean alike, Random random, List<Integer> truth) {
    List<ReadSystem> lines = new ArrayList<>();
    int number = 1;
    for (int part = 0; part < 2; part++) {
      int before = 3 + random.nextInt(4);
      lines.add(drawn(lines.size() + 1, number, before, random, part == 0 ? "No. " + index : ""));
      number = count(truth, number, before);
      int endings = 2 + random.nextInt(2);
      int first = number;
      for (int e = 1; e <= endings; e++) {
        number = alike ? first : number;
        int bars = 1 + random.nextInt(4);
        Line line = drawnLine(lines.size() + 1, number, bars, random, "");
        line.signs.add(ending(0.5, line.at(bars), e + "."));
        line.end = e < endings ? "repeat-end" : "single";
        lines.add(line.read());
        number = count(truth, number, bars);
      }
      for (int more = 0; more < 2; more++) {
        int bars = 3 + random.nextInt(3);
        lines.add(drawn(lines.size() + 1, number, bars, random, ""));
        number = count(truth, number, bars);
      }
    }
    return new ReadPage(index, "page.png", 1000, 1000, lines);
  }

  private static int count(List<Integer> truth, int number, int bars) {
    for (int b = 0; b < bars; b++) {
      truth.add(number + b);
    }
    return number + bars;
  }

  private static ReadSystem drawn(int index, int number, int bars, Random random, String heading) {
    return drawnLine(index, number, bars, random, heading).read();
  }

  private static Line drawnLine(int index, int number, int bars, Random random, String heading) {
    int says = number;
    if (random.nextInt(12) == 0) {
      // off by more than one, which a missed barline could explain as well
      says = number / 10 * 10 + (number % 10 + 2 + random.nextInt(7)) % 10;
    }
    return new Line(index, number == 1 ? 0 : says, heading, bars);
  }

  private static BarMap reckon(ReadPage... pages) {
    return new Reckoner().reckon(new Book("made", ""), List.of(pages));
  }

  private static ReadSystem line(int index, int number, boolean printed, String heading, int bars) {
    return new Line(index, printed ? number : 0, heading, bars).read();
  }

  /** A line of bars 20 staff spaces wide; {@code number} 0 for none printed. */
  private static final class Line {
    final List<Sign> signs = new ArrayList<>();
    String end = "single";
    private final int index;
    private final int bars;

    Line(int index, int number, String heading, int bars) {
      this.index = index;
      this.bars = bars;
      if (!heading.isEmpty()) {
        signs.add(sign(SignKind.HEADING, 2, 20, new Reading(heading, 0.95)));
      }
      if (number > 0) {
        signs.add(sign(SignKind.BAR_NUMBER, 0.5, 2, new Reading(Integer.toString(number), 0.97)));
      }
    }

    /** Where bar {@code i} of the line begins. */
    double at(int i) {
      return 6 + 20.0 * i;
    }

    ReadSystem read() {
      for (int i = 1; i <= bars; i++) {
        String type = i == bars ? end : "single";
        signs.add(sign(SignKind.BARLINE, at(i) - 0.1, at(i) + 0.1, new Reading(type, 1)));
      }
      StaffSystem staff = OnLine.staff(index);
      return new ReadSystem(
          staff,
          at(bars),
          (from, to) -> Outline.box(from * 10, index * 100, to * 10, index * 100 + 40),
          signs);
    }
  }

  private static Sign ending(double from, double to, String says) {
    return sign(SignKind.ENDING, from, to - 0.5, new Reading(says, 0.95));
  }

  private static Sign sign(SignKind kind, double from, double to, Reading... readings) {
    return OnLine.sign(kind, from, to, 0.98, List.of(readings));
  }
}
