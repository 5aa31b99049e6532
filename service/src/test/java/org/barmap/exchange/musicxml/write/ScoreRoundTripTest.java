package org.barmap.exchange.musicxml.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.barmap.exchange.musicxml.Scores;
import org.barmap.exchange.musicxml.book.ScoreBook;
import org.barmap.map.BarMap;
import org.barmap.plan.Books;
import org.barmap.plan.PublishedOrders;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A map written as MusicXML and made into a book again keeps what both can say: bars, meters, keys,
 * rests, repeats, endings, jumps, marks, words, and with them the order of play.
 */
class ScoreRoundTripTest {

  @Test
  void theDemoBook() throws Exception {
    assertComesBack("the demo book", Scores.saltmarsh());
  }

  /** Random books; more with {@code -Dbarmap.exchange.books=5000}. */
  @Test
  void randomBooks() throws Exception {
    int books = Integer.getInteger("barmap.exchange.books", 60);
    List<String> differences = new ArrayList<>();
    for (int seed = 0; seed < books; seed++) {
      Knobs knobs = seed % 4 == 0 ? Knobs.simple() : Knobs.wild();
      List<String> these = differences(RandomBooks.book(600_000 + seed, knobs).map());
      if (!these.isEmpty()) {
        differences.add("seed " + seed + ": " + these);
      }
    }
    assertThat(differences).isEmpty();
  }

  /**
   * Source: as in {@code OrderOfPlayTest}, repeat-expansion tests of the music21 toolkit
   * (test_repeat.py, commit 3146cb0) and tests of the partitura toolkit (commit e01626b).
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      textBlock =
          PublishedOrders.MUSIC21
              + """
              1 2 |:3:| 4@dc 5                         ; 1 2 3 3 4 1 2 3 4 5
              1:| 2 |:3 4@fine 5/1:| 6/2 7/2:| 8/3@dc  ; 1 1 2 3 4 5 3 4 6 7 3 4 8 1 2 3 4
              """)
  void publishedOrdersOfPlay(String book, String order) throws Exception {
    BarMap back = back(Books.book(book));

    assertThat(SingleBars.of(back).orders())
        .containsExactly(
            Arrays.stream(order.split(" "))
                .map(n -> Integer.toString(Integer.parseInt(n) - 1))
                .toList()
                .toString());
  }

  private static void assertComesBack(String name, BarMap map) throws Exception {
    assertThat(differences(map)).as(name).isEmpty();
  }

  private static List<String> differences(BarMap map) throws Exception {
    SingleBars before = SingleBars.of(map);
    SingleBars after = SingleBars.of(back(map));
    List<String> differences = new ArrayList<>();
    differ(before.lines(), after.lines(), differences);
    differ(before.orders(), after.orders(), differences);
    return differences;
  }

  private static void differ(List<String> before, List<String> after, List<String> differences) {
    for (int i = 0; i < Math.max(before.size(), after.size()); i++) {
      String was = i < before.size() ? before.get(i) : "nothing";
      String is = i < after.size() ? after.get(i) : "nothing";
      if (!was.equals(is)) {
        differences.add(was + " came back as " + is);
      }
    }
  }

  private static BarMap back(BarMap map) throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    MusicXmlWriter.write(map, out);
    return ScoreBook.read("back.musicxml", new ByteArrayInputStream(out.toByteArray()))
        .book(0)
        .map();
  }
}
