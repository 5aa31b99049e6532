package org.barmap.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import java.util.Objects;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/**
 * Source of every expected figure: {@code score.py}, the scorer that defines the figures asked of
 * this project, was run once on these invented maps; {@code NAME-figures.json} is what it wrote
 * ({@code --json}), its list of errors replaced by their number.
 */
class ComparisonTest {
  private static final List<String> CASES = List.of("plain", "rescaled", "skewed", "sparse");

  @ParameterizedTest
  @ValueSource(strings = {"plain", "rescaled", "skewed", "sparse"})
  void countsAndFiguresEqualThoseOfTheReferenceScorer(String name) {
    JsonNode expected = tree(name + "-figures.json");
    Comparison comparison = compare(name);
    Tally tally = comparison.tally();
    for (var e : expected.path("tally").properties()) {
      if (e.getValue().isArray()) {
        for (int k = 0; k < Tally.BINS; k++) {
          double v =
              switch (e.getKey()) {
                case "bin_n" -> tally.binN(k);
                case "bin_ok" -> tally.binRight(k);
                default -> tally.binConfidence(k);
              };
          assertThat(v).as(e.getKey() + k).isCloseTo(e.getValue().get(k).asDouble(), within(1e-9));
        }
      } else {
        assertThat(tally.get(e.getKey())).as(e.getKey()).isEqualTo(e.getValue().asLong());
      }
    }
    assertFigures(expected.path("metrics"), Figures.of(tally));
    assertThat(comparison.errors()).hasSize(expected.path("errors").asInt());
  }

  @Test
  void pooledFiguresEqualThoseOfTheReferenceScorer() {
    Tally all = new Tally();
    CASES.forEach(c -> all.merge(compare(c).tally()));
    assertFigures(tree("pooled-figures.json").path("metrics"), Figures.of(all));
  }

  @ParameterizedTest
  @ValueSource(strings = {"plain", "skewed"})
  void aMapIsRightAgainstItself(String name) {
    JsonNode truth = tree(name + "-truth.json");
    Comparison comparison = Comparison.of(truth, truth);
    assertThat(comparison.errors()).isEmpty();
    assertThat(Figures.of(comparison.tally()).get("bar_f1")).hasValue(1);
    assertThat(Figures.of(comparison.tally()).get("corrections_per_page")).hasValue(0);
    assertThat(SignTable.of(comparison.tally()))
        .isNotEmpty()
        .allSatisfy(row -> assertThat(row.ofPrinted()).isEqualTo(1))
        .allSatisfy(row -> assertThat(row.ofRead()).isEqualTo(1));
  }

  private static void assertFigures(JsonNode expected, Figures figures) {
    for (var e : expected.properties()) {
      if (e.getValue().isNull()) {
        assertThat(figures.get(e.getKey())).as(e.getKey()).isEmpty();
      } else {
        assertThat(figures.get(e.getKey()).orElse(Double.NaN))
            .as(e.getKey())
            .isCloseTo(e.getValue().asDouble(), within(1e-9));
      }
    }
  }

  private static Comparison compare(String name) {
    return Comparison.of(tree(name + "-truth.json"), tree(name + "-found.json"));
  }

  private static JsonNode tree(String name) {
    try (InputStream in =
        Objects.requireNonNull(ComparisonTest.class.getResourceAsStream(name), name)) {
      return BarMapJson.mapper().readTree(in);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
