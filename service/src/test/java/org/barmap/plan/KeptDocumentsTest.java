package org.barmap.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.Objects;
import org.barmap.map.BarMap;
import org.barmap.map.Severity;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.ChangesJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Documents written by the build of commit be0d465 ({@code src/test/resources/org/barmap/kept}):
 * the demo book's map, a list with every kind of change there was, and the plan of both. The
 * formats only grow, so they are read, mean what they meant and are written back as they came.
 * These files are never made anew; a later state of a format gets files of its own beside them.
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
}
