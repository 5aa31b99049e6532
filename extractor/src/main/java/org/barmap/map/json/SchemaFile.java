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

/** A JSON Schema (2020-12) shipped in a jar. */
public final class SchemaFile {

  /** So many broken places are named at most. */
  private static final int MOST_PROBLEMS = 50;

  private final String text;
  private final Schema schema;

  private SchemaFile(String text) {
    this.text = text;
    schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(text, InputFormat.JSON);
  }

  /**
   * Loads a schema.
   *
   * @param owner the class whose jar holds it
   * @param resource its name as {@link Class#getResourceAsStream} takes it
   */
  public static SchemaFile load(Class<?> owner, String resource) {
    try (InputStream in = owner.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException(resource + " is missing from the jar");
      }
      return new SchemaFile(new String(in.readAllBytes(), StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the schema's text. */
  public String text() {
    return text;
  }

  /** Returns the places that break the schema, one sentence each; empty when valid. */
  public List<String> check(JsonNode document) {
    return schema.validate(document).stream()
        .map(e -> e.getInstanceLocation() + ": " + e.getMessage())
        .limit(MOST_PROBLEMS)
        .toList();
  }
}
