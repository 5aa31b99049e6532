package org.barmap.plan.oracle;

import java.util.List;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.NumberPlan;
import org.barmap.plan.mark.PencilMark;
import org.barmap.plan.ready.GetReady;
import org.barmap.plan.rest.LongRest;
import org.barmap.plan.turn.Turn;
import tools.jackson.databind.node.ArrayNode;

/** What of a plan hangs on bars that nobody has looked at, as the plan itself says. */
final class Carried {
  private final ArrayNode all = BarMapJson.mapper().createArrayNode();

  private Carried() {}

  static ArrayNode by(Worked worked) {
    Carried carried = new Carried();
    for (Turn turn : worked.plan().turns()) {
      carried.add("turn " + turn.fromPage() + "-" + turn.toPage(), turn.unsure());
    }
    for (LongRest rest : worked.plan().rests()) {
      carried.add("rest " + worked.first(rest.first()), rest.unsure());
    }
    for (PencilMark mark : worked.plan().pencil()) {
      carried.add("mark " + mark.where(), mark.unsure());
    }
    for (GetReady ready : worked.plan().instruments()) {
      carried.add("instrument " + worked.first(ready.at()), ready.unsure());
    }
    for (NumberPlan number : worked.plan().numbers()) {
      carried.add("played " + number.label(), number.unsure());
    }
    return carried.all;
  }

  private void add(String what, List<String> unsure) {
    if (!unsure.isEmpty()) {
      all.addObject().put("what", what).put("because", String.join("; ", unsure));
    }
  }
}
