package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.barmap.map.BarMap;
import org.barmap.map.Severity;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ChangesJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * Documents written by the build of commit be0d465 ({@code src/test/resources/org/barmap/kept}):
 * the demo book's map, a list with every kind of change there was, and the plan of both. The
 * formats only grow, so they are read, mean what they meant and are written back as they came.
 * These files are never made anew; a later state of a format gets files of its own beside them: a
 * folder for each day on which there was one, written by the last build of that day (of the last
 * day, by a build of it) from the demo book's map and changes as they were then. The map was the
 * same on all of them; one more is a page as it was read, with what the page itself says.
 */
class KeptDocumentsTest {

  /** 120 and 120.0 are one figure. */
  private static final Comparator<JsonNode> SAME_FIGURES =
      (a, b) ->
          a.isNumber() && b.isNumber()
              ? Double.compare(a.doubleValue(), b.doubleValue())
              : a.equals(b) ? 0 : 1;

  private static String text(String name) {
    try (InputStream in = KeptDocumentsTest.class.getResourceAsStream("/org/barmap/kept/" + name)) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static JsonNode tree(String json) {
    return BarMapJson.mapper().readTree(json);
  }

  @Test
  void aMapIsReadAndWrittenBackTheSame() {
    String kept = text("barmap-1.json");
    assertThat(tree(BarMapJson.write(BarMapJson.read(kept)))).isEqualTo(tree(kept));
  }

  @Test
  void changesAreReadAndWrittenBackTheSame() {
    JsonNode kept = tree(text("changes-1.json"));
    JsonNode written = tree(ChangesJson.write(ChangesJson.read(text("changes-1.json"))));
    assertThat(written.equals(SAME_FIGURES, kept)).as("%s", written).isTrue();
  }

  @Test
  void aPlanFitsTheSchemaStill() {
    assertThat(PlanSchema.check(tree(text("barplan-1.json")))).isEmpty();
  }

  @Test
  void noKeptChangeIsRefused() {
    BarMap map = BarMapJson.read(text("barmap-1.json"));
    Plan plan = Planner.plan(map, ChangesJson.read(text("changes-1.json")), PlanSettings.USUAL);
    assertThat(plan.findings()).noneMatch(f -> f.severity() == Severity.ERROR);
    assertThat(PlanSchema.check(PlanJson.tree(plan))).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"2026-11-24", "2026-11-25", "2026-11-28", "2026-11-29"})
  void documentsOfADayAreReadAndMeanWhatTheyMeant(String day) {
    JsonNode changes = tree(text(day + "/changes-1.json"));
    JsonNode written = tree(ChangesJson.write(ChangesJson.read(changes.toString())));
    assertThat(written.equals(SAME_FIGURES, changes)).as("%s", written).isTrue();
    JsonNode kept = tree(text(day + "/barplan-1.json"));
    assertThat(PlanSchema.check(kept)).isEmpty();
    BarMap map = BarMapJson.read(text("2026-11-24/barmap-1.json"));
    JsonNode now =
        PlanJson.tree(Planner.plan(map, ChangesJson.read(changes.toString()), PlanSettings.USUAL));
    assertThat(orders(now)).isEqualTo(orders(kept));
  }

  /** What is played of each number, one after the other. */
  private static List<String> orders(JsonNode plan) {
    List<String> orders = new ArrayList<>();
    for (JsonNode number : plan.path("numbers")) {
      StringBuilder order = new StringBuilder(number.path("label").asString()).append(":");
      for (JsonNode played : number.path("order")) {
        order.append(' ').append(played.path("bar").asString());
        order.append('/').append(played.path("bars").asInt(0));
      }
      orders.add(order.toString());
    }
    return orders;
  }

  @ParameterizedTest
  @ValueSource(strings = {"2026-11-24/barmap-1.json", "2026-11-29/barmap-1-read.json"})
  void mapsOfADayAreReadAndWrittenBackTheSame(String name) {
    JsonNode kept = tree(text(name));
    JsonNode written = tree(BarMapJson.write(BarMapJson.read(kept.toString())));
    assertThat(written.equals(SAME_FIGURES, kept)).isTrue();
  }
}
