package org.barmap.web.contract;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialects;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.feed.Published;
import tools.jackson.core.JsonPointer;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** The description of the service, with the schemas it names. */
public final class ApiDescription {

  /** Read once: all tests of a run are held to the same one. */
  public static final ApiDescription INSTANCE = new ApiDescription();

  private static final String SITE = "https://barmap.test/";

  /** As JSON: a validator reads the text anew for each schema in it, which takes YAML long. */
  private static final String HERE = SITE + "openapi.json";

  private final JsonNode tree;
  private final SchemaRegistry registry;
  private final List<Operation> operations = new ArrayList<>();
  private final Map<String, Schema> schemas = new ConcurrentHashMap<>();
  private final Map<String, JsonNode> documents = new HashMap<>();

  /**
   * A route.
   *
   * @param at where it stands in the description
   * @param statuses what may be answered
   */
  public record Operation(
      String method, String path, JsonPointer at, Pattern pattern, Set<Integer> statuses) {

    /** Takes a copy. */
    public Operation {
      statuses = Set.copyOf(statuses);
    }

    /** Returns it as the server lists its routes. */
    public String route() {
      return method + " " + path;
    }
  }

  /** A place in one of the documents. */
  record Place(String document, JsonPointer at, JsonNode node) {}

  private ApiDescription() {
    tree = new YAMLMapper().readTree(text());
    documents.put(HERE, tree);
    Map<String, String> texts = new HashMap<>();
    texts.put(HERE, tree.toString());
    Published.schemas()
        .forEach(
            (address, text) -> {
              String at = SITE + address.substring(1);
              texts.put(at, text);
              documents.put(at, BarMapJson.mapper().readTree(text));
            });
    registry =
        SchemaRegistry.withDefaultDialect(
            Dialects.getOpenApi31(), builder -> builder.schemas(texts));
    JsonPointer paths = JsonPointer.compile("/paths");
    for (Map.Entry<String, JsonNode> path : tree.path("paths").properties()) {
      for (String method : path.getValue().propertyNames()) {
        if (!method.equals("parameters")) {
          operations.add(
              new Operation(
                  method.toUpperCase(Locale.ROOT),
                  path.getKey(),
                  paths.appendProperty(path.getKey()).appendProperty(method),
                  pattern(path.getKey()),
                  statuses(path.getValue().path(method))));
        }
      }
    }
    // an address that is written out goes before one with a name for anything
    operations.sort(Comparator.comparingLong(o -> o.path().chars().filter(c -> c == '{').count()));
  }

  private static Set<Integer> statuses(JsonNode operation) {
    return operation.path("responses").propertyNames().stream()
        .map(Integer::valueOf)
        .collect(Collectors.toSet());
  }

  private static Pattern pattern(String path) {
    return Pattern.compile("\\Q" + path.replaceAll("\\{\\w+}", "\\\\E[^/]+\\\\Q") + "\\E/?");
  }

  /** Returns the description as it is served. */
  public static String text() {
    try (InputStream in = ApiDescription.class.getResourceAsStream("/site/openapi.yaml")) {
      return new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns the whole description. */
  public JsonNode tree() {
    return tree;
  }

  /** Returns every route it describes. */
  public List<Operation> operations() {
    return List.copyOf(operations);
  }

  /** Returns the route a request is for. */
  Optional<Operation> operation(String method, String path) {
    return operations.stream()
        .filter(o -> o.method().equals(method) && o.pattern().matcher(path).matches())
        .findFirst();
  }

  /** Returns what stands at a place, or at the one it refers to. */
  Place at(JsonPointer pointer) {
    return resolved(new Place(HERE, pointer, tree.at(pointer)));
  }

  /** Follows references until something stands there itself. */
  Place resolved(Place place) {
    JsonNode ref = place.node().path("$ref");
    return ref.isMissingNode() ? place : resolved(referred(place, ref.asString()));
  }

  /** Returns what a reference at a place names. */
  Place referred(Place from, String ref) {
    String[] parts = ref.split("#", 2);
    String document = parts[0].isEmpty() ? from.document() : SITE + parts[0];
    JsonPointer at = JsonPointer.compile(parts.length < 2 ? "" : parts[1]);
    JsonNode node = Objects.requireNonNull(documents.get(document), ref).at(at);
    if (node.isMissingNode()) {
      throw new AssertionError("the description refers to " + ref + ", which is not there");
    }
    return new Place(document, at, node);
  }

  /** Returns what of a document breaks the schema at a place, or stands in no schema. */
  List<String> problems(Place schema, JsonNode document) {
    Schema compiled =
        schemas.computeIfAbsent(
            schema.document() + "#" + schema.at(), at -> registry.getSchema(SchemaLocation.of(at)));
    List<String> problems = new ArrayList<>();
    compiled
        .validate(document)
        .forEach(e -> problems.add(e.getInstanceLocation() + ": " + e.getMessage()));
    if (problems.isEmpty()) {
      problems.addAll(new Undescribed(this).in(schema, document));
    }
    return problems;
  }
}
