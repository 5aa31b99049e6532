package org.barmap.exchange.region;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Polygon;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Outline;
import org.barmap.map.Point;
import org.barmap.map.StaffSystem;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Books;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Bars by address, as annotations and in a manifest; expectations are counted by hand. */
class RegionsTest {
  private static final BarMap BOOK = Books.book("%7 1 2 3@mA 4@mr8 12 12A@l12A 13 %8 c1 c2@p2 c3");
  private static final String AT = "http://127.0.0.1:1/api/books/x";

  private static Served served(BarMap map) {
    List<Served.Leaf> leaves = new ArrayList<>();
    map.pages()
        .forEach(
            p ->
                leaves.add(
                    new Served.Leaf("p" + p.index(), p.index(), 1000, 1400, true, p.systems())));
    return new Served(AT, "Saltmarsh", "Bass", leaves);
  }

  private static BarPlaces.At found(String address) {
    return ((BarPlaces.One) new BarPlaces(BOOK).find(address)).at();
  }

  @Test
  void aBarIsFoundByItsAddress() {
    assertThat(found("7:3").name()).isEqualTo("3");
    assertThat(found("7:12A").entry().label()).contains("12A");
    assertThat(found("7:A").name()).isEqualTo("3");
    assertThat(found("7: A + 1").name()).isEqualTo("4");
    assertThat(found("8:2").entry().page()).isEqualTo(2);
  }

  @Test
  void aRestOfSeveralBarsHoldsThemAll() {
    for (int bar = 4; bar <= 11; bar++) {
      BarPlaces.At at = found("7:" + bar);
      assertThat(at.entry().count()).isEqualTo(8);
      assertThat(at.within()).isEqualTo(bar - 4);
      assertThat(at.name()).isEqualTo(Integer.toString(bar));
    }
    assertThat(found("7:12").entry().count()).isEqualTo(1);
  }

  @Test
  void whatIsNotThereIsSaid() {
    BarPlaces places = new BarPlaces(BOOK);
    assertThat(((BarPlaces.None) places.find("7:400")).why()).contains("400");
    BarPlaces.None number = (BarPlaces.None) places.find("9:1");
    assertThat(number.why()).contains("No. 9");
    assertThat(number.instead()).containsExactly("7:", "8:");
    assertThat(((BarPlaces.None) places.find("12")).why()).contains("which number");
    assertThat(places.find("")).isInstanceOf(BarPlaces.None.class);
    assertThat(new BarPlaces(Books.book("1 2 3")).find("2")).isInstanceOf(BarPlaces.One.class);
  }

  @Test
  void everyBarHasAnAnnotationThatLeadsBackToIt() {
    Served served = served(BOOK);
    WebAnnotations writer = new WebAnnotations(served, BOOK);
    Rules.assertKept(Rules.annotations(writer.collection()));
    int seen = 0;
    for (Served.Leaf leaf : served.pages()) {
      ObjectNode page = writer.page(leaf);
      Rules.assertKept(Rules.annotations(page));
      Rules.assertKept(Rules.presentation(writer.onCanvas(leaf)));
      Rules.assertKept(Rules.places(page));
      Rules.assertKept(Rules.places(writer.onCanvas(leaf)));
      assertThat(page.path("startIndex").asInt()).isEqualTo(seen);
      seen += page.path("items").size();
      for (JsonNode item : page.path("items")) {
        String id = item.path("id").asString();
        String address = body(item, "tagging");
        assertThat(found(address).entry().id()).isEqualTo(id.substring(id.indexOf('#') + 1));
      }
    }
    assertThat(seen).isEqualTo(BOOK.bars().size());
    assertThat(writer.collection().path("total").asInt()).isEqualTo(seen);
  }

  @Test
  void aRestIsNamedByItsFirstAndLastBar() {
    ObjectNode page = new WebAnnotations(served(BOOK), BOOK).page(served(BOOK).pages().get(0));
    JsonNode rest = page.path("items").path(3);
    assertThat(body(rest, "identifying")).isEqualTo("4\u201311");
    assertThat(body(rest, "tagging")).isEqualTo("7:4");
    assertThat(body(rest, "describing")).isEqualTo("No. 7, bars 4\u201311, rest");
  }

  private static String body(JsonNode annotation, String purpose) {
    for (JsonNode body : annotation.path("body")) {
      if (body.path("purpose").asString("").equals(purpose)) {
        return body.path("value").asString();
      }
    }
    return "";
  }

  @Test
  void aBentStaffHasAShapeThatFollowsIt() {
    // a parabola 30 pixels deep in the middle, sampled every 50; the bar is its middle half
    List<Point> middle = new ArrayList<>();
    for (int x = 0; x <= 1000; x += 50) {
      middle.add(new Point(x, bend(x)));
    }
    Outline bar =
        new Outline(
            new Point(250, bend(250) - 40),
            new Point(750, bend(750) - 40),
            new Point(750, bend(750) + 40),
            new Point(250, bend(250) + 40));
    StaffSystem staff = new StaffSystem(1, bar, 20, Optional.empty(), 1, middle);
    Region region = Region.of(bar, staff, 1000, 1400);
    Polygon drawn = new Polygon();
    region.shape().forEach(p -> drawn.addPoint((int) Math.round(p.x()), (int) Math.round(p.y())));
    for (int x = 260; x < 750; x += 10) {
      assertThat(drawn.contains(x, bend(x))).isTrue();
      assertThat(drawn.contains(x, bend(x) - 37)).isTrue();
      assertThat(drawn.contains(x, bend(x) + 37)).isTrue();
      assertThat(drawn.contains(x, bend(x) - 43)).isFalse();
      assertThat(drawn.contains(x, bend(x) + 43)).isFalse();
    }
    assertThat(region.isBox()).isFalse();
    assertThat(region.svg()).contains("<polygon points=\"250,").endsWith("</svg>");
    assertThat(region.fragment()).isEqualTo("xywh=250,482,500,88");
  }

  private static double bend(double x) {
    return 500 + 30 * (1 - Math.pow((x - 500) / 500, 2));
  }

  @Test
  void aStraightOneIsABoxInsideThePage() {
    Region box = Region.of(Outline.box(10, 20, 110, 60), 1000, 1400);
    assertThat(box.isBox()).isTrue();
    assertThat(box.fragment()).isEqualTo("xywh=10,20,100,40");
    Region over = Region.of(Outline.box(-5, 1390, 1200, 1500), 1000, 1400);
    assertThat(over.fragment()).isEqualTo("xywh=0,1390,1000,10");
  }

  @Test
  void theManifestKeepsTheRules() {
    ObjectNode manifest = new BookManifest(served(BOOK), BOOK).manifest().orElseThrow();
    Rules.assertKept(Rules.manifest(manifest));
    assertThat(manifest.path("items").size()).isEqualTo(2);
    assertThat(manifest.path("structures").size()).isEqualTo(2);
    assertThat(manifest.path("structures").path(1).path("items").size()).isEqualTo(2);
    Rules.assertKept(
        Rules.info(new BookManifest(served(BOOK), BOOK).info(served(BOOK).pages().get(0))));
  }

  @ParameterizedTest
  @ValueSource(strings = {"0033-choice.json", "0266-full-canvas-annotation.json"})
  void theRulesTakeThePublishedManifests(String name) {
    Rules.assertKept(Rules.presentation(Rules.document(name)));
  }

  /** Each takes one thing away from a document that is right, or puts a wrong one into it. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          manifest   |                                     | label      |
          manifest   |                                     | label      | "text"
          manifest   |                                     | id         | "urn:x"
          manifest   |                                     | @context   |
          manifest   |                                     | unheard    | 1
          manifest   |                                     | behavior   | ["sideways"]
          manifest   | /requiredStatement                  | value      |
          manifest   | /metadata/0                         | value      |
          manifest   | /items/0                            | height     |
          manifest   | /items/0                            | width      | 0
          manifest   | /items/0                            | items      |
          manifest   | /items/0                            | type       | "Page"
          manifest   | /items/0/items/0                    | id         |
          manifest   | /items/0/items/0/items/0            | target     |
          manifest   | /items/0/items/0/items/0/body       | format     | "jpeg"
          manifest   | /items/0/items/0/items/0/body       | service    | {}
          manifest   | /items/0/items/0/items/0/body       | id         |
          manifest   | /items/0/annotations/0              | type       | "Annotations"
          manifest   | /structures/0                       | items      |
          canvas     |                                     | items      |
          canvas     |                                     | startIndex | 0
          canvas     | /items/0/target                     | source     |
          canvas     | /items/0/target/selector/0          | value      |
          page       |                                     | @context   | "http://iiif.io/api/presentation/3/context.json"
          page       |                                     | startIndex | -1
          page       |                                     | next       | {}
          page       | /items/0                            | id         |
          page       | /items/0                            | target     |
          page       | /items/0                            | bodyValue  | "also"
          page       | /items/0                            | motivation | "painting"
          page       | /items/0/body/0                     | value      |
          page       | /items/0/body/0                     | purpose    | "naming"
          page       | /items/0/body/0                     | language   | "English"
          page       | /items/0/target                     | source     |
          page       | /items/0/target/selector/0          | type       | "Selector"
          collection |                                     | first      |
          collection |                                     | total      | -1
          collection |                                     | last       | {}
          """)
  void theRulesFindWhatIsBroken(
      String document, @Nullable String at, String key, @Nullable String value) {
    WebAnnotations writer = new WebAnnotations(served(BOOK), BOOK);
    Served.Leaf leaf = served(BOOK).pages().get(0);
    ObjectNode node =
        switch (document) {
          case "manifest" -> new BookManifest(served(BOOK), BOOK).manifest().orElseThrow();
          case "canvas" -> writer.onCanvas(leaf);
          case "page" -> writer.page(leaf);
          default -> writer.collection();
        };
    ObjectNode there = (ObjectNode) node.at(at == null ? "" : at);
    if (value == null) {
      assertThat(there.remove(key)).as(key).isNotNull();
    } else {
      there.set(key, BarMapJson.mapper().readTree(value));
    }
    boolean iiif = document.equals("manifest") || document.equals("canvas");
    assertThat(iiif ? Rules.presentation(node) : Rules.annotations(node)).isNotEmpty();
  }

  @Test
  void aBookWithoutPagesHasNoneOfThem() {
    Bar bar = Bar.builder("b1", 0, 0, Outline.box(0, 0, 0, 0)).build();
    BarMap map = BarMap.of(BOOK.book(), List.of(), List.of(), List.of(bar));
    Served none = new Served(AT, "", "", List.of());
    assertThat(new BookManifest(none, map).manifest()).isEmpty();
    assertThat(new WebAnnotations(none, map).collection().path("total").asInt()).isZero();
    BarPlaces places = new BarPlaces(map);
    ObjectNode told = new BarView(none, places).of(((BarPlaces.One) places.find("1")).at());
    assertThat(told.path("bar").asString()).isEqualTo("1");
    assertThat(told.has("place")).isFalse();
  }
}
