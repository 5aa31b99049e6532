package org.barmap.plan.cases;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.barmap.map.Bar;
import org.barmap.map.MusicalNumber;
import org.barmap.map.json.BarMapJson;
import org.barmap.map.json.SchemaFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Every row of the trade's cases is well made; what it expects is not tested here. */
class TradeCasesTest {

  private static final SchemaFile CHANGES =
      SchemaFile.load(TradeCasesTest.class, "/org/barmap/plan/changes-1.schema.json");

  private static final Set<String> OF_ENTRIES = Set.of("mentions", "silent");

  static Stream<TradeCase> rows() {
    return TradeCases.all();
  }

  @Test
  void idsAreUniqueAndTellTheirClass() {
    for (String name : TradeCases.CLASSES) {
      assertThat(TradeCases.of(name)).isNotEmpty().allMatch(r -> r.id().startsWith(name + "-"));
    }
    Set<String> ids = new HashSet<>();
    assertThat(TradeCases.all()).allMatch(r -> ids.add(r.id()));
    assertThat(ids).hasSizeGreaterThanOrEqualTo(220);
  }

  @Test
  void noQuestionIsPutTwice() {
    Set<List<Object>> seen = new HashSet<>();
    assertThat(TradeCases.all())
        .allMatch(
            r ->
                seen.add(
                    List.of(r.book(), r.changes(), r.settings(), r.ask(), r.of(), r.expect())));
  }

  @ParameterizedTest
  @MethodSource("rows")
  void itsBooksAreValidMaps(TradeCase row) {
    Situation situation = Situation.of(row);
    assertThat(BarMapJson.read(BarMapJson.write(situation.book().map())))
        .isEqualTo(situation.book().map());
    situation.other().ifPresent(o -> BarMapJson.read(BarMapJson.write(o.map())));
    assertThat(situation.book().map().bars()).isNotEmpty();
  }

  @ParameterizedTest
  @MethodSource("rows")
  void itsChangesAreWordsOrValid(TradeCase row) throws IOException {
    ObjectNode document = BarMapJson.mapper().createObjectNode().put("format", "changes/1");
    List<JsonNode> objects =
        Situation.of(row).changes().stream().filter(c -> !c.isString()).toList();
    document.putArray("changes").addAll(objects);
    assertThat(CHANGES.check(document)).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("rows")
  void itAsksOfSomethingThatIsThere(TradeCase row) {
    assertThat(row.source()).isNotBlank();
    assertThat(row.ask().needs()).allMatch(row::says);
    Situation situation = Situation.of(row);
    if (row.says("number")) {
      MusicalNumber number =
          situation.book().map().numbers().stream()
              .filter(n -> n.label().equals(row.text("number")))
              .findFirst()
              .orElseThrow();
      if (row.says("bar") && row.ask() != Ask.ALIGNED) {
        assertThat(names(situation.book().map().barsOf(number))).contains(row.text("bar"));
      }
    }
    if (row.says("page")) {
      assertThat(row.whole("page")).isBetween(1, situation.book().pages().size());
    }
    if (row.says("change")) {
      assertThat(row.whole("change")).isBetween(1, row.changes().size());
    }
  }

  @ParameterizedTest
  @MethodSource("rows")
  void itExpectsAnAnswerOfTheKindAsked(TradeCase row) {
    List<String> gives = row.ask().gives();
    for (JsonNode entry : entries(row.expect())) {
      if (gives.isEmpty()) {
        assertThat(entry.isValueNode()).isTrue();
      } else {
        assertThat(entry.propertyNames())
            .isNotEmpty()
            .allMatch(k -> gives.contains(k) || OF_ENTRIES.contains(k));
      }
    }
    if (row.ask() == Ask.ORDER) {
      assertThat(BarsInOrder.is(row.expect().asString())).isTrue();
      assertThat(Comparing.differences(row.expect(), row.expect())).isEmpty();
    }
  }

  /** An order that is expected names bars that are written, or inserted ones. */
  @ParameterizedTest
  @MethodSource("rows")
  void itExpectsBarsThatAreThere(TradeCase row) {
    if (row.ask() != Ask.ORDER) {
      return;
    }
    MusicalNumber number =
        Situation.of(row).book().map().numbers().stream()
            .filter(n -> n.label().equals(row.text("number")))
            .findFirst()
            .orElseThrow();
    Set<String> names = names(Situation.of(row).book().map().barsOf(number));
    for (String bar : BarsInOrder.spread(row.expect().asString())) {
      boolean bracket = bar.startsWith("(") || bar.startsWith(")");
      boolean inserted = bar.matches("\\d+(\\+\\d+|[A-Z])");
      String written = bar.replaceAll("[\\[/].*", "");
      assertThat(bracket || inserted || names.contains(written)).as(bar).isTrue();
    }
  }

  /** Returns what bars are called, also those inside multi-bar rests. */
  private static Set<String> names(List<Bar> bars) {
    Set<String> names = new HashSet<>();
    for (Bar bar : bars) {
      bar.label().ifPresent(names::add);
      for (int i = 0; i < bar.count(); i++) {
        names.add(Integer.toString(bar.number() + i));
      }
    }
    return names;
  }

  private static List<JsonNode> entries(JsonNode expected) {
    List<JsonNode> entries = new ArrayList<>();
    if (expected.isArray()) {
      expected.forEach(entries::add);
    } else if (expected.isObject()
        && Set.of("has", "not", "most", "count").containsAll(expected.propertyNames())) {
      expected.path("has").forEach(entries::add);
      expected.path("not").forEach(entries::add);
    } else {
      entries.add(expected);
    }
    return entries;
  }
}
