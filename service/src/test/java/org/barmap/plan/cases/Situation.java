package org.barmap.plan.cases;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What a question is put about.
 *
 * @param book the player's book
 * @param other another chair's book
 * @param changes in order: texts in words, objects of {@code changes/1} with their ids
 * @param settings what the player has answered, an object
 */
public record Situation(
    CaseBook book, Optional<CaseBook> other, List<JsonNode> changes, JsonNode settings) {

  /** Takes a defensive copy. */
  public Situation {
    changes = List.copyOf(changes);
  }

  /** Reads the books of a row and fills in what it left out. */
  public static Situation of(TradeCase row) {
    JsonNode usual = BarMapJson.mapper().valueToTree(Map.of("firstPage", "right"));
    return new Situation(
        BookNotation.read(row.book()),
        row.other().map(BookNotation::read),
        named(row.changes()),
        row.settings().orElse(usual));
  }

  private static List<JsonNode> named(List<JsonNode> changes) {
    List<JsonNode> copies = changes.stream().map(JsonNode::deepCopy).toList();
    for (int i = 0; i < copies.size(); i++) {
      if (copies.get(i) instanceof ObjectNode change && !change.has("id")) {
        change.put("id", "c" + (i + 1));
      }
    }
    return copies;
  }
}
