package org.barmap.map.json;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import tools.jackson.databind.JsonNode;

/** The JSON Schema (2020-12) of {@code barmap/1}, shipped as {@code barmap-1.schema.json}. */
public final class BarMapSchema {

  private static final String TEXT = load();
  private static final Schema SCHEMA =
      SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(TEXT, InputFormat.JSON);

  private BarMapSchema() {}

  /** Returns the schema's text. */
  public static String text() {
    return TEXT;
  }

  /** Returns the places that break the schema, one sentence each; empty when valid. */
  public static List<String> check(JsonNode document) {
    return SCHEMA.validate(document).stream()
        .map(e -> e.getInstanceLocation() + ": " + e.getMessage())
        .limit(50)
        .toList();
  }

  private static String load() {
    try (InputStream in = BarMapSchema.class.getResourceAsStream("barmap-1.schema.json")) {
      if (in == null) {
        throw new IllegalStateException("barmap-1.schema.json is missing from the jar");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
