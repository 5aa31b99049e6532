package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.kind.ShowChange;
import org.barmap.plan.change.say.Meta;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.IntNode;
import tools.jackson.databind.node.ObjectNode;

/** Reads and writes {@code changes/1}, checked against its JSON Schema both ways. */
public final class ChangesJson {
  private static final List<String> COMMON = List.of("kind", "meta", "number");

  private ChangesJson() {}

  /**
   * Reads changes.
   *
   * @throws BadChangesException when the text is no JSON, breaks the schema, or uses an id twice
   */
  public static ShowChanges read(String json) {
    JsonNode tree;
    try {
      tree = BarMapJson.mapper().readTree(BarMapJson.withoutMark(json));
    } catch (JacksonException e) {
      throw new BadChangesException(List.of("not JSON: " + e.getOriginalMessage()));
    }
    List<String> broken = new ArrayList<>(ChangesSchema.check(tree));
    if (!broken.isEmpty()) {
      throw new BadChangesException(broken);
    }
    List<ShowChange> changes = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    for (JsonNode node : tree.path("changes")) {
      ShowChange change = one(node);
      if (!ids.add(change.meta().id())) {
        broken.add("change id " + change.meta().id() + " is there twice");
      }
      changes.add(change);
    }
    if (!broken.isEmpty()) {
      throw new BadChangesException(broken);
    }
    return new ShowChanges(changes);
  }

  /**
   * Reads one change, as it stands in the list.
   *
   * @throws BadChangesException when it breaks the schema
   */
  public static ShowChange readOne(JsonNode node) {
    ObjectNode document = BarMapJson.mapper().createObjectNode();
    document.put("format", ShowChanges.FORMAT);
    document.putArray("changes").add(node);
    List<String> broken = ChangesSchema.check(document);
    if (!broken.isEmpty()) {
      throw new BadChangesException(broken);
    }
    return one(node);
  }

  /** Writes changes as text. */
  public static String write(ShowChanges changes) {
    ObjectNode document = BarMapJson.mapper().createObjectNode();
    document.put("format", ShowChanges.FORMAT);
    ArrayNode list = document.putArray("changes");
    changes.changes().forEach(c -> list.add(tree(c)));
    return BarMapJson.mapper().writeValueAsString(document);
  }

  /**
   * Returns one change as JSON: what all kinds have in common, and between it what this one has.
   */
  public static ObjectNode tree(ShowChange change) {
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    Meta meta = change.meta();
    node.put("id", meta.id());
    if (!change.number().isEmpty()) {
      node.put("number", change.number());
    }
    node.put("kind", change.kind());
    ObjectNode own = BarMapJson.mapper().valueToTree(change);
    own.remove(COMMON);
    own.properties().forEach(e -> node.set(e.getKey(), plain(e.getValue())));
    meta.note().ifPresent(v -> node.put("note", v));
    if (!meta.on()) {
      node.put("on", false);
    }
    meta.when().ifPresent(v -> node.put("when", v));
    meta.who().ifPresent(v -> node.put("who", v));
    meta.version().ifPresent(v -> node.put("version", v));
    meta.since().ifPresent(v -> node.put("since", v));
    meta.until().ifPresent(v -> node.put("until", v));
    meta.replaces().ifPresent(v -> node.put("replaces", v));
    return node;
  }

  /** Whole figures are written without a point. */
  private static JsonNode plain(JsonNode value) {
    return value.isDouble() && value.asDouble() == Math.rint(value.asDouble())
        ? IntNode.valueOf((int) value.asDouble())
        : value;
  }

  /** Reads one change that is known to follow the schema. */
  static ShowChange one(JsonNode node) {
    ObjectNode own = (ObjectNode) node.deepCopy();
    ObjectNode meta = BarMapJson.mapper().createObjectNode();
    meta.put("id", text(node, "id"));
    meta.put("on", node.path("on").asBoolean(true));
    for (String key : List.of("when", "who", "note", "version", "since", "until", "replaces")) {
      if (!text(node, key).isEmpty()) {
        meta.put(key, text(node, key));
      }
    }
    own.set("meta", meta);
    own.put("number", text(node, "number"));
    try {
      return BarMapJson.mapper().treeToValue(own, ShowChange.class);
    } catch (JacksonException e) {
      throw new BadChangesException(List.of(e.getOriginalMessage()));
    }
  }

  private static String text(JsonNode node, String key) {
    return node.path(key).asString("");
  }
}
