package org.barmap.plan.reference;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * One change of {@code changes/1}, read from its JSON by the schema alone.
 *
 * @param json the node itself; its optional keys are read where they are needed
 */
public record Change(JsonNode json) {

  /** Key of the pass a cut, or playing, holds in: a number or "last". */
  public static final String PASS = "pass";

  String id() {
    return text("id").orElse("");
  }

  String kind() {
    return text("kind").orElse("");
  }

  // Source: changes-1.schema.json: "on": false is a change kept but not counted.
  boolean on() {
    JsonNode on = json.get("on");
    return on == null || on.asBoolean();
  }

  Optional<String> text(String key) {
    JsonNode value = json.get(key);
    return value == null ? Optional.empty() : Optional.of(value.asString());
  }

  int whole(String key, int otherwise) {
    JsonNode value = json.get(key);
    return value == null ? otherwise : value.asInt();
  }

  double figure(String key) {
    JsonNode value = json.get(key);
    return value == null ? 0 : value.asDouble();
  }

  boolean has(String key) {
    return json.get(key) != null;
  }

  /** A jump back as the count it comes to. */
  Change asPlay() {
    ObjectNode play = JsonNodeFactory.instance.objectNode();
    play.put("id", id()).put("kind", "play").put("times", whole("times", 1) + 1);
    play.put("first", text("to").orElse("")).put("last", text("from").orElse(""));
    return new Change(play);
  }

  List<String> list(String key) {
    List<String> all = new ArrayList<>();
    JsonNode value = json.get(key);
    if (value != null) {
      value.forEach(v -> all.add(v.asString()));
    }
    return all;
  }
}
