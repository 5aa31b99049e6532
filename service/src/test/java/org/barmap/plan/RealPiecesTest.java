package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.barmap.plan.Books.run;

import java.util.stream.Stream;
import org.barmap.map.BarMap;
import org.barmap.plan.change.ShowChanges;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Written and played bars of real pieces.
 *
 * <p>Source: section labels, repeat barlines and expansion lists of the public Humdrum editions
 * craigsapp/joplin (commit 0b51ec7), craigsapp/mozart-piano-sonatas (0f424cb) and
 * craigsapp/beethoven-piano-sonatas (0f507f4); totals computed from them. Only bar numbers are
 * used, no notes. Where a strain is split in mid-bar by its repeat sign, the bar number is kept
 * whole.
 */
class RealPiecesTest {

  static Stream<Arguments> pieces() {
    return Stream.concat(rags(), minuetsAndScherzi());
  }

  private static Stream<Arguments> rags() {
    return Stream.of(
        Arguments.of(
            "Joplin, Maple Leaf Rag", // kern/mapleleaf.krn
            "p@n0 "
                + rag(1, 15, 1)
                + rag(18, 32, 1)
                + run("", 35, 50, "")
                + rag(51, 65, 1)
                + rag(68, 82, 1),
            84,
            144),
        Arguments.of(
            "Joplin, The Entertainer", // kern/entertainer.krn, last strain from its repeat sign at
            // 76
            run("", 1, 4, "")
                + rag(5, 19, 1)
                + rag(22, 36, 1)
                + run("", 39, 54, "")
                + rag(55, 69, 1)
                + run("", 72, 75, "")
                + rag(76, 90, 1),
            92,
            152),
        Arguments.of(
            "Joplin, Elite Syncopations", // kern/elite.krn
            run("", 1, 4, "")
                + rag(5, 19, 1)
                + rag(22, 36, 1)
                + run("", 39, 54, "")
                + rag(55, 69, 1)
                + rag(72, 86, 1),
            88,
            148),
        Arguments.of(
            "Joplin, The Easy Winners", // kern/winners.krn; two-bar endings in the last two strains
            run("", 1, 4, "")
                + rag(5, 19, 1)
                + rag(22, 36, 1)
                + run("", 39, 58, "")
                + rag(59, 72, 2)
                + rag(77, 90, 2),
            94,
            152));
  }

  private static Stream<Arguments> minuetsAndScherzi() {
    return Stream.of(
        Arguments.of(
            "Mozart, K. 331/ii", // kern/sonata11-2.krn
            run("|:", 1, 18, ":|")
                + run("|:", 19, 48, ":|@fine")
                + run("|:", 49, 64, ":|")
                + run("|:", 65, 99, "")
                + "100/1:| 101/2@dc",
            101,
            248),
        Arguments.of("Mozart, K. 282/ii", minuet(12, 32, 48, 72), 72, 176), // sonata04-2.krn
        Arguments.of("Beethoven, op. 2/1 iii", minuet(14, 40, 50, 73), 73, 186), // sonata01-3.krn
        Arguments.of("Beethoven, op. 2/2 iii", minuet(8, 44, 52, 68), 68, 180), // sonata02-3.krn
        Arguments.of(
            "Beethoven, op. 10/3 iii", // sonata07-3.krn: [A,A,B,B,C,A,B]
            run("|:", 1, 16, ":|") + run("|:", 17, 54, ":|@fine") + run("", 55, 86, "@dc"),
            86,
            194),
        Arguments.of("Beethoven, op. 22 iii", minuet(8, 30, 38, 46), 46, 122), // sonata11-3.krn
        Arguments.of(
            "Beethoven, op. 26 ii", // sonata12-2.krn: [A,B,B,C,C,D,D1,D,D2,E,A,B]
            run("", 1, 16, "")
                + run("|:", 17, 67, ":|@fine")
                + run("|:", 68, 75, ":|")
                + run("|:", 76, 90, "")
                + "91/1:| 92/2 "
                + run("", 93, 96, "@dc"),
            96,
            237));
  }

  /** A strain with first and second endings of so many bars behind it. */
  private static String rag(int first, int last, int endingBars) {
    StringBuilder text = new StringBuilder(run("|:", first, last, ""));
    for (int ending = 1; ending <= 2; ending++) {
      for (int i = 1; i <= endingBars; i++) {
        int bar = last + (ending - 1) * endingBars + i;
        boolean closes = ending == 1 && i == endingBars;
        text.append(bar).append('/').append(ending).append(closes ? ":| " : " ");
      }
    }
    return text.toString();
  }

  /** Minuet and trio of two repeated strains each, then the minuet without repeats. */
  private static String minuet(int a, int b, int c, int d) {
    return run("|:", 1, a, ":|")
        + run("|:", a + 1, b, ":|@fine")
        + run("|:", b + 1, c, ":|")
        + run("|:", c + 1, d, ":|@dc");
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("pieces")
  void writtenAndPlayedBars(String piece, String written, int writtenBars, int playedBars) {
    BarMap map = Books.book(written);
    NumberPlan number = Planner.plan(map, ShowChanges.none(), PlanSettings.USUAL).numbers().get(0);
    assertThat(number.written()).as(piece).isEqualTo(writtenBars);
    assertThat(number.played().bars()).as(piece).isEqualTo(playedBars);
  }
}
