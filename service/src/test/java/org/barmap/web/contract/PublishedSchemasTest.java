package org.barmap.web.contract;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.feed.Published;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;

/** What is published says what every key means, with examples that are right. */
class PublishedSchemasTest {

  private static final Set<String> PLAIN = Set.of("string", "number", "integer");

  static Set<String> addresses() {
    return Published.schemas().keySet();
  }

  private static JsonNode schema(String address) {
    return BarMapJson.mapper().readTree(Objects.requireNonNull(Published.schemas().get(address)));
  }

  private static String oas() throws IOException {
    try (InputStream in = PublishedSchemasTest.class.getResourceAsStream("oas-3.1-schema.json")) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** Found by their names, so that a schema of a schema is no part of it. */
  private record Described(String where, JsonPointer at, JsonNode node) {}

  private static void properties(JsonNode schema, JsonPointer at, List<Described> found) {
    for (String group : List.of("properties", "$defs")) {
      for (Map.Entry<String, JsonNode> one : schema.path(group).properties()) {
        JsonPointer below = at.appendProperty(group).appendProperty(one.getKey());
        found.add(new Described(below.toString(), below, one.getValue()));
        properties(one.getValue(), below, found);
      }
    }
    for (String inner : List.of("items", "additionalProperties")) {
      if (schema.path(inner).isObject()) {
        properties(schema.path(inner), at.appendProperty(inner), found);
      }
    }
  }

  /** A plain value that isn't one of a few words needs an example; so does a part of its own. */
  private static boolean needsExample(JsonNode root, Described one) {
    JsonNode node = one.node();
    while (node.has("$ref")) {
      node = root.at(node.path("$ref").asString().substring(1));
    }
    boolean part = one.where().startsWith("/$defs") && one.at().tail().tail().matches();
    boolean plain = PLAIN.contains(node.path("type").asString(""));
    return (part || plain) && !node.has("enum") && !node.has("const");
  }

  @ParameterizedTest
  @MethodSource("addresses")
  void everyKeyIsDescribedAndItsExamplesAreRight(String address) {
    JsonNode root = schema(address);
    assertThat(root.path("description").asString("")).isNotBlank();
    List<Described> all = new ArrayList<>();
    properties(root, JsonPointer.empty(), all);
    assertThat(all).hasSizeGreaterThan(10);
    SchemaRegistry registry =
        SchemaRegistry.withDefaultDialect(
            SpecificationVersion.DRAFT_2020_12,
            builder -> builder.schemas(Map.of("https://barmap.test/it", root.toString())));
    List<String> wrong = new ArrayList<>();
    for (Described one : all) {
      if (one.node().path("description").asString("").isBlank()) {
        wrong.add(one.where() + " has no description");
      }
      if (needsExample(root, one) && one.node().path("examples").isEmpty()) {
        wrong.add(one.where() + " has no example");
      }
      Schema schema =
          registry.getSchema(SchemaLocation.of("https://barmap.test/it#" + one.where()));
      for (JsonNode example : one.node().path("examples")) {
        schema
            .validate(example)
            .forEach(e -> wrong.add(one.where() + ": the example " + e.getMessage()));
      }
    }
    assertThat(wrong).isEmpty();
  }

  /** The addresses in the schemas stay those they had before they were served. */
  @Test
  void everySchemaHasItsOwnId() {
    Set<String> ids = new HashSet<>();
    addresses().forEach(a -> ids.add(schema(a).path("$id").asString()));
    assertThat(ids)
        .containsExactlyInAnyOrder(
            "https://barmap.org/schema/barmap-1.schema.json",
            "https://barmap.org/schema/changes-1.schema.json",
            "https://barmap.org/schema/barplan-1.schema.json",
            "https://barmap.org/schema/barpack-1.schema.json");
  }

  /**
   * The OpenAPI Initiative's own schema of OpenAPI 3.1 documents, 2022-10-07 (Apache-2.0), as the
   * package {@code openapi-spec-validator} 0.9.0 carries it.
   */
  @Test
  void theDescriptionOfTheServiceIsOpenApi() throws Exception {
    Schema official =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(oas(), InputFormat.JSON);
    JsonNode description = ApiDescription.INSTANCE.tree();
    assertThat(official.validate(description)).isEmpty();
    JsonNode broken = description.deepCopy();
    ((tools.jackson.databind.node.ObjectNode) broken.path("info")).remove("title");
    assertThat(official.validate(broken)).isNotEmpty();
    assertThat(description.path("openapi").asString()).startsWith("3.1");
  }

  /** Every schema in it is one, every reference leads somewhere, and its examples are right. */
  @Test
  void theBodiesOfTheDescriptionHaveRightExamples() {
    ApiDescription description = ApiDescription.INSTANCE;
    List<String> wrong = new ArrayList<>();
    references(description.tree(), JsonPointer.empty(), description, wrong);
    assertThat(wrong).isEmpty();
  }

  private static void references(
      JsonNode node, JsonPointer at, ApiDescription description, List<String> wrong) {
    if (node.path("$ref").isString()) {
      description.at(at); // fails where nothing is there
    }
    if (node.path("schema").isObject() && node.has("example")) {
      JsonPointer schema = at.appendProperty("schema");
      wrong.addAll(description.problems(description.at(schema), node.path("example")));
    }
    for (JsonNode example : node.path("examples")) {
      wrong.addAll(description.problems(description.at(at), example));
    }
    node.properties()
        .forEach(e -> references(e.getValue(), at.appendProperty(e.getKey()), description, wrong));
    for (int i = 0; node.isArray() && i < node.size(); i++) {
      references(node.get(i), at.appendIndex(i), description, wrong);
    }
  }
}
