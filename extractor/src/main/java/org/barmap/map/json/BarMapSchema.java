package org.barmap.map.json;

import java.util.List;
import tools.jackson.databind.JsonNode;

/** The JSON Schema (2020-12) of {@code barmap/1}, shipped as {@code barmap-1.schema.json}. */
public final class BarMapSchema {

  private static final SchemaFile FILE =
      SchemaFile.load(BarMapSchema.class, "barmap-1.schema.json");

  private BarMapSchema() {}

  /** Returns the schema's text. */
  public static String text() {
    return FILE.text();
  }

  /** Returns the places that break the schema, one sentence each; empty when valid. */
  public static List<String> check(JsonNode document) {
    return FILE.check(document);
  }
}
