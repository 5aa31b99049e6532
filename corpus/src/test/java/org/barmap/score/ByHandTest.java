package org.barmap.score;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Progress;
import org.barmap.map.BarMap;
import org.barmap.map.Outline;
import org.barmap.map.Page.HandMark;
import org.barmap.map.Point;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * What is said to be written by hand, against what the maker of the pages drew on them ({@code
 * corpus/make/pencil.mjs}, which wrote {@code by-hand.json}).
 */
class ByHandTest {
  private static final Path PAGES =
      Path.of(System.getProperty("barmap.home", "..")).resolve("corpus/pages");
  private static Extractor extractor;

  @BeforeAll
  static void open() {
    extractor = Extractor.open();
  }

  @AfterAll
  static void close() {
    extractor.close();
  }

  private static BarMap read(String page) {
    return extractor.read(List.of(PAGES.resolve(page)), Options.NONE, Progress.NONE).map();
  }

  @ParameterizedTest
  @ValueSource(strings = {"pencil-musescore-940004.jpg", "pencil-abcm2ps-940019.jpg"})
  void whatIsClaimedWasDrawn(String page) throws IOException {
    List<Outline> drawn = drawn(page);
    List<HandMark> claimed = read(page).pages().get(0).byHand();
    assertThat(claimed).isNotEmpty();
    assertThat(claimed)
        .allMatch(c -> drawn.stream().mapToDouble(d -> shared(c.outline(), d)).sum() > 0.5);
    long found =
        drawn.stream()
            .filter(d -> claimed.stream().anyMatch(c -> shared(d, c.outline()) > 0.5))
            .count();
    // What lies in the staff or runs into print isn't found: on sealed pages four marks of ten are,
    // on the poorer of these two one in four.
    assertThat(found).isGreaterThan(drawn.size() / 5);
  }

  @Test
  void aPageNobodyWroteOnHasNone() {
    assertThat(read("clean-abcm2ps-910018.png").pages().get(0).byHand()).isEmpty();
  }

  @Test
  void theMapWithThemFitsItsSchemaAndComesBack() {
    BarMap map = read("pencil-musescore-940004.jpg");
    String json = BarMapJson.write(map);
    assertThat(BarMapJson.read(json)).isEqualTo(map);
  }

  /** Returns the share of a box that lies in another. */
  private static double shared(Outline of, Outline in) {
    double[] a = box(of);
    double[] b = box(in);
    double across = Math.min(a[2], b[2]) - Math.max(a[0], b[0]);
    double down = Math.min(a[3], b[3]) - Math.max(a[1], b[1]);
    return Math.max(0, across) * Math.max(0, down) / ((a[2] - a[0]) * (a[3] - a[1]));
  }

  private static double[] box(Outline o) {
    List<Point> p = List.of(o.topLeft(), o.topRight(), o.bottomRight(), o.bottomLeft());
    return new double[] {
      p.stream().mapToDouble(Point::x).min().orElseThrow(),
      p.stream().mapToDouble(Point::y).min().orElseThrow(),
      p.stream().mapToDouble(Point::x).max().orElseThrow(),
      p.stream().mapToDouble(Point::y).max().orElseThrow()
    };
  }

  private static List<Outline> drawn(String page) throws IOException {
    List<Outline> all = new ArrayList<>();
    try (InputStream in = ByHandTest.class.getResourceAsStream("by-hand.json")) {
      for (JsonNode mark : BarMapJson.mapper().readTree(in).path(page)) {
        List<Point> p = new ArrayList<>();
        mark.path("outline")
            .forEach(c -> p.add(new Point(c.path(0).asDouble(), c.path(1).asDouble())));
        all.add(new Outline(p.get(0), p.get(1), p.get(2), p.get(3)));
      }
    }
    return all;
  }
}
