package org.barmap.fit;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import org.barmap.map.json.BarMapJson;
import org.barmap.reckon.cost.Costs;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The costs that were fitted and are kept. */
class KeptCostsTest {

  @Test
  void theCommittedCostsSayWhereTheyComeFromAndCoverEveryCost() throws IOException {
    JsonNode kept =
        BarMapJson.mapper().readTree(Files.readString(FitCosts.RESOURCES.resolve("costs.json")));
    assertThat(kept.path("fitted").asString("")).matches("\\d{4}-\\d{2}-\\d{2}");
    assertThat(kept.path("events").size()).isPositive();
    JsonNode costs = BarMapJson.mapper().valueToTree(Costs.DEFAULT);
    assertThat(kept.path("costs")).isEqualTo(costs);
  }
}
