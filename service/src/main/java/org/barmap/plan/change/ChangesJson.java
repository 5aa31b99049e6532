package org.barmap.plan.change;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.BarMapJson;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Reads and writes {@code changes/1}, checked against its JSON Schema both ways. */
public final class ChangesJson {

  private ChangesJson() {}

  /**
   * Reads changes.
   *
   * @throws BadChangesException when the text is no JSON, breaks the schema, or uses an id twice
   */
  public static ShowChanges read(String json) {
    JsonNode tree;
    try {
      tree = BarMapJson.mapper().readTree(json);
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

  /** Returns one change as JSON. */
  public static ObjectNode tree(ShowChange change) {
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    Meta meta = change.meta();
    node.put("id", meta.id());
    if (!change.number().isEmpty()) {
      node.put("number", change.number());
    }
    node.put("kind", change.kind());
    if (change instanceof Ranged r) {
      node.put("first", r.first());
      node.put("last", r.last());
    }
    details(change, node);
    meta.note().ifPresent(v -> node.put("note", v));
    if (!meta.on()) {
      node.put("on", false);
    }
    meta.when().ifPresent(v -> node.put("when", v));
    meta.who().ifPresent(v -> node.put("who", v));
    return node;
  }

  private static void details(ShowChange change, ObjectNode node) {
    if (change instanceof ShowChange.Vamp c) {
      node.put("leave", c.leave().word());
    } else if (change instanceof ShowChange.Play c) {
      node.put("times", c.times());
    } else if (change instanceof ShowChange.Beats c) {
      node.put("beats", c.beats());
    } else if (change instanceof ShowChange.Insert c) {
      node.put("after", c.after());
      node.put("bars", c.bars());
      c.label().ifPresent(v -> node.put("label", v));
    } else if (change instanceof ShowChange.Reorder c) {
      ArrayNode numbers = node.putArray("numbers");
      c.numbers().forEach(numbers::add);
    } else if (change instanceof ShowChange.Tempo c) {
      node.put("first", c.first());
      c.last().ifPresent(v -> node.put("last", v));
      node.put("beat", c.beat());
      figure(node, "perMinute", c.perMinute());
      c.toPerMinute().ifPresent(v -> figure(node, "toPerMinute", v));
    } else if (change instanceof ShowChange.KeyChange c) {
      node.put("first", c.first());
      node.put("fifths", c.fifths());
    } else if (change instanceof ShowChange.Instrument c) {
      node.put("first", c.first());
      node.put("to", c.to());
    } else if (change instanceof ShowChange.Remind c) {
      node.put("first", c.first());
      node.put("what", c.what().word());
    }
  }

  private static void figure(ObjectNode node, String key, double value) {
    if (value == Math.rint(value)) {
      node.put(key, (int) value);
    } else {
      node.put(key, value);
    }
  }

  private static ShowChange one(JsonNode n) {
    Meta meta =
        new Meta(
            n.path("id").asString(""),
            n.path("on").asBoolean(true),
            optional(n, "when"),
            optional(n, "who"),
            optional(n, "note"));
    String number = text(n, "number");
    String first = text(n, "first");
    String last = optional(n, "last").orElse(first);
    return switch (text(n, "kind")) {
      case "cut" -> new ShowChange.Cut(meta, number, first, last);
      case "vamp" ->
          new ShowChange.Vamp(
              meta,
              number,
              first,
              last,
              text(n, "leave").equals(Leave.ANY_TIME.word()) ? Leave.ANY_TIME : Leave.END_OF_PASS);
      case "safety" -> new ShowChange.Safety(meta, number, first, last);
      case "play" -> new ShowChange.Play(meta, number, first, last, n.path("times").asInt(1));
      case "insert" ->
          new ShowChange.Insert(
              meta, number, text(n, "after"), n.path("bars").asInt(1), optional(n, "label"));
      case "tacet" -> new ShowChange.Tacet(meta, number);
      case "cut-number" -> new ShowChange.CutNumber(meta, number);
      case "order" -> {
        List<String> numbers = new ArrayList<>();
        n.path("numbers").forEach(v -> numbers.add(v.asString("")));
        yield new ShowChange.Reorder(meta, numbers);
      }
      case "tempo" ->
          new ShowChange.Tempo(
              meta,
              number,
              first,
              text(n, "beat"),
              n.path("perMinute").asDouble(0),
              n.has("toPerMinute")
                  ? optional(n, "last").or(() -> Optional.of(first))
                  : Optional.empty(),
              n.has("toPerMinute")
                  ? Optional.of(n.path("toPerMinute").asDouble(0))
                  : Optional.empty());
      case "key" -> new ShowChange.KeyChange(meta, number, first, n.path("fifths").asInt(0));
      case "beats" -> new ShowChange.Beats(meta, number, first, last, n.path("beats").asInt(1));
      case "instrument" -> new ShowChange.Instrument(meta, number, first, text(n, "to"));
      case "remind" ->
          new ShowChange.Remind(
              meta, number, first, Reminder.of(text(n, "what")).orElse(Reminder.TEXT));
      default -> throw new BadChangesException(List.of("no such kind: " + text(n, "kind")));
    };
  }

  private static String text(JsonNode node, String key) {
    return node.path(key).asString("");
  }

  private static Optional<String> optional(JsonNode node, String key) {
    String value = text(node, key);
    return value.isEmpty() ? Optional.empty() : Optional.of(value);
  }
}
