package org.barmap.plan.oracle;

import java.util.List;
import java.util.Set;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.Plan;
import org.barmap.plan.PlanJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.reference.against.BarplanReader;
import org.barmap.plan.reference.against.PlanUnderTest;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The planner as the walker's comparison sees it: by its {@code barplan/1} document alone. */
final class PlannerUnderTest implements PlanUnderTest {

  /** What these say is about hands, pages and marks at a cut; the form is sure. */
  private static final Set<String> NOT_OF_THE_FORM =
      Set.of(
          "cut-beats",
          "cut-bow",
          "cut-instrument",
          "cut-key",
          "cut-meter",
          "cut-mute",
          "cut-odd-bar",
          "cut-pages",
          "cut-pickup",
          "cut-tempo",
          "cut-turn",
          "first-page",
          "in-hand",
          "instrument-open",
          "open-turn");

  @Override
  public Planned plan(BarMap map, List<JsonNode> changes, boolean repeatsAfterJump) {
    ObjectNode document = BarMapJson.mapper().createObjectNode();
    document.put("format", ShowChanges.FORMAT);
    document.putArray("changes").addAll(changes);
    ShowChanges read = ChangesJson.read(document.toString());
    PlanSettings settings = PlanSettings.USUAL.withRepeatsAfterJump(repeatsAfterJump);
    Plan plan = Planner.plan(map, read, settings);
    return BarplanReader.read(PlanJson.tree(plan), map, changes, PlannerUnderTest::asks);
  }

  /** The schema: how often the bar has been played now. */
  @Override
  public Passes passes() {
    return Passes.TIMES_SOUNDED;
  }

  private static boolean asks(JsonNode finding) {
    return !finding.path("severity").asString().equals("info")
        && !NOT_OF_THE_FORM.contains(finding.path("code").asString());
  }
}
