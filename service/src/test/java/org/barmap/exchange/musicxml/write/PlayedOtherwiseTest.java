package org.barmap.exchange.musicxml.write;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.barmap.map.BarMap;
import org.barmap.plan.reference.books.Knobs;
import org.barmap.plan.reference.books.RandomBooks;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What a general-purpose program was seen to play otherwise is named in the file's own list. The
 * numbers are those {@link EngraversTest} found with the program installed; here it needn't be.
 */
class PlayedOtherwiseTest {

  static Stream<String> numbers() throws Exception {
    try (InputStream in =
        Objects.requireNonNull(
            PlayedOtherwiseTest.class.getResourceAsStream(
                "/org/barmap/exchange/musicxml/played-otherwise.txt"))) {
      List<String> lines =
          new String(in.readAllBytes(), StandardCharsets.UTF_8)
              .lines()
              .filter(l -> !l.startsWith("#"))
              .toList();
      return lines.stream();
    }
  }

  @ParameterizedTest
  @MethodSource("numbers")
  void isNamed(String number) {
    String[] said = number.split(" ");
    int seed = Integer.parseInt(said[0]);
    Knobs knobs = seed % 4 == 0 ? Knobs.simple() : Knobs.wild();
    BarMap map = RandomBooks.book(500_000 + seed, knobs).map();
    assertThat(NotSaid.of(map, map.numbers().get(Integer.parseInt(said[1]) - 1)))
        .anyMatch(NotSaid::order);
  }
}
