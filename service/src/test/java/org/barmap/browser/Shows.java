package org.barmap.browser;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import java.util.Map;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The demo show's changes, made one after the other as a player makes them. */
final class Shows {

  private Shows() {}

  /** Makes every change of the demo show in a book that has none. */
  static void changesInto(Api api, String book) throws IOException {
    String path = "/api/books/" + book + "/changes";
    String text = Files.readString(DemoBook.page("changes.json"), StandardCharsets.UTF_8);
    for (JsonNode change : BarMapJson.mapper().readTree(text).path("changes")) {
      ObjectNode said = ((ObjectNode) change).deepCopy();
      said.remove(List.of("id", "when"));
      Map<String, Object> body =
          BarMapJson.mapper().convertValue(said, new TypeReference<Map<String, Object>>() {});
      api.post(path, body, api.revision(path));
    }
  }
}
