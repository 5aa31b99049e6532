package org.barmap.plan;

import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/** Writes plans as {@code barplan/1}. */
public final class PlanJson {

  private PlanJson() {}

  /** Returns a plan as JSON. */
  public static JsonNode tree(Plan plan) {
    return BarMapJson.mapper().valueToTree(plan);
  }

  /** Writes a plan as text. */
  public static String write(Plan plan) {
    return BarMapJson.mapper().writeValueAsString(plan);
  }
}
