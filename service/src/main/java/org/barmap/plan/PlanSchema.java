package org.barmap.plan;

import java.util.List;
import org.barmap.map.json.SchemaFile;
import tools.jackson.databind.JsonNode;

/** The JSON Schema (2020-12) of {@code barplan/1}, shipped as {@code barplan-1.schema.json}. */
public final class PlanSchema {

  private static final SchemaFile FILE = SchemaFile.load(PlanSchema.class, "barplan-1.schema.json");

  private PlanSchema() {}

  /** Returns the schema's text. */
  public static String text() {
    return FILE.text();
  }

  /** Returns the places that break the schema, one sentence each; empty when valid. */
  public static List<String> check(JsonNode document) {
    return FILE.check(document);
  }
}
