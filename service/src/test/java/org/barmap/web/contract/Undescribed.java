package org.barmap.web.contract;

import java.util.ArrayList;
import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.barmap.web.contract.ApiDescription.Place;
import tools.jackson.databind.JsonNode;

/**
 * Keys of a document that no schema says anything about. The schemas allow them, because formats
 * grow; the service itself sends only what it describes.
 */
final class Undescribed {

  private static final List<String> BRANCHES = List.of("allOf", "anyOf", "oneOf");

  private final ApiDescription description;
  private final List<String> found = new ArrayList<>();

  Undescribed(ApiDescription description) {
    this.description = description;
  }

  /** Returns them as places in the document. */
  List<String> in(Place schema, JsonNode document) {
    look(List.of(schema), document, "");
    return found;
  }

  private void look(List<Place> schemas, JsonNode document, String where) {
    List<Place> all = new ArrayList<>();
    Set<JsonNode> seen = Collections.newSetFromMap(new IdentityHashMap<>());
    schemas.forEach(s -> spread(s, all, seen));
    if (document.isArray()) {
      List<Place> items = below(all, "items");
      for (int i = 0; i < document.size(); i++) {
        look(items, document.get(i), where + "/" + i);
      }
    } else if (document.isObject()) {
      boolean closed = all.stream().anyMatch(s -> s.node().has("properties")) && !isOpen(all);
      for (Map.Entry<String, JsonNode> property : document.properties()) {
        List<Place> said = below(all, "properties", property.getKey());
        if (said.isEmpty() && closed) {
          found.add(where + "/" + property.getKey() + ": nothing describes this key");
        }
        said.addAll(below(all, "additionalProperties"));
        look(said, property.getValue(), where + "/" + property.getKey());
      }
    }
  }

  private static boolean isOpen(List<Place> schemas) {
    return schemas.stream().anyMatch(s -> s.node().has("additionalProperties"));
  }

  /** Adds a schema, those it refers to and those it is made of. */
  private void spread(Place schema, List<Place> all, Set<JsonNode> seen) {
    if (!schema.node().isObject() || !seen.add(schema.node())) {
      return;
    }
    all.add(schema);
    JsonNode ref = schema.node().path("$ref");
    if (ref.isString()) {
      spread(description.referred(schema, ref.asString()), all, seen);
    }
    for (String branch : BRANCHES) {
      for (JsonNode one : schema.node().path(branch)) {
        spread(new Place(schema.document(), schema.at(), one), all, seen);
      }
    }
  }

  private static List<Place> below(List<Place> schemas, String... steps) {
    List<Place> found = new ArrayList<>();
    for (Place schema : schemas) {
      JsonNode node = schema.node();
      for (String step : steps) {
        node = node.path(step);
      }
      if (node.isObject()) {
        found.add(new Place(schema.document(), schema.at(), node));
      }
    }
    return found;
  }
}
