package org.barmap.bench;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.List;
import java.util.ServiceLoader;
import org.barmap.cli.ExtraCommand;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;
import tools.jackson.databind.JsonNode;

/**
 * The command and its figures by name, which reports are compared by. A few rounds do for that: how
 * fast anything is, is never asserted.
 */
class BenchCommandTest {

  @Test
  void theCommandLineFindsIt() {
    assertThat(ServiceLoader.load(ExtraCommand.class)).anyMatch(BenchCommand.class::isInstance);
  }

  @Test
  void planningIsMeasuredInAProcessOfItsOwn() {
    JsonNode figures = measured("plan");
    assertThat(figures.propertyNames())
        .containsExactly("cores", "planBars", "planChanges", "planMillis");
    assertThat(figures.path("planBars").asInt(0)).isGreaterThanOrEqualTo(3000);
    assertThat(figures.path("planChanges").asInt(0)).isEqualTo(200);
    assertThat(figures.path("planMillis").asDouble(0)).isPositive();
  }

  @Test
  void clicksAreMeasuredComputedAndKept() {
    JsonNode figures = measured("edit");
    assertThat(figures.propertyNames())
        .containsExactly(
            "cores",
            "editBars",
            "editMillis",
            "editKeptMillis",
            "changePlannedMillis",
            "settlePages",
            "settleBars",
            "settleOpen",
            "settleMillis",
            "routeDoubts",
            "routeCorrectedMillis",
            "routeAnswerBytes",
            "routeCheckedMillis",
            "routeDeskOpenedMillis",
            "deskFirstViewMillis",
            "deskViewMillis",
            "deskRedrawnMillis",
            "deskRedrawnWorstMillis",
            "routePastedLines",
            "roadFirstViewMillis",
            "roadFirstViewPageMillis",
            "roadReadMillis",
            "roadReadPageMillis",
            "roadAcceptedMillis",
            "roadAcceptedPageMillis",
            "roadTakenBackMillis",
            "roadTakenBackPageMillis",
            "routePastedMillis");
    assertThat(figures.path("settlePages").asInt(0)).isEqualTo(144);
    // in a map without evidence nothing would be settled, and the correction would be asked nowhere
    assertThat(figures.path("settleOpen").asInt(0)).isPositive();
    for (String name :
        List.of("editMillis", "editKeptMillis", "changePlannedMillis", "settleMillis")) {
      assertThat(figures.path(name).asDouble(0)).as(name).isPositive();
    }
  }

  private static JsonNode measured(String what) {
    StringWriter out = new StringWriter();
    CommandLine line = new CommandLine(new BenchCommand());
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setOut(new PrintWriter(out));
    assertThat(line.execute(what, "--rounds", "3", "--json")).isZero();
    return BarMapJson.mapper().readTree(out.toString());
  }
}
