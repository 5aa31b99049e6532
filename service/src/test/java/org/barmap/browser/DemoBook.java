package org.barmap.browser;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.barmap.map.Bar;
import org.barmap.map.Content;
import org.barmap.map.json.BarMapJson;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** The demo book's page images in the source tree, and what is truly on them. */
public final class DemoBook {

  private DemoBook() {}

  /**
   * Returns where the last multi-bar rest of a page truly stands, and its count.
   *
   * @param name of the page's truth, "page-01.json"
   */
  static TrueRest lastRest(String name) throws IOException {
    List<Bar> rests =
        BarMapJson.read(page(name)).bars().stream()
            .filter(b -> b.content() == Content.MULTI_REST)
            .toList();
    Bar last = rests.get(rests.size() - 1);
    return new TrueRest(
        (last.outline().topLeft().x() + last.outline().bottomRight().x()) / 2,
        (last.outline().topLeft().y() + last.outline().bottomRight().y()) / 2,
        last.count());
  }

  /**
   * A rest as drawn.
   *
   * @param x its middle, page pixels
   * @param y its middle, page pixels
   * @param count bars
   */
  record TrueRest(double x, double y, int count) {}

  /** Makes every change of the demo show in a book that has none. */
  public static void changesInto(Api api, String book) throws IOException {
    String path = "/api/books/" + book + "/changes";
    String text = Files.readString(page("changes.json"), StandardCharsets.UTF_8);
    for (JsonNode change : BarMapJson.mapper().readTree(text).path("changes")) {
      ObjectNode said = ((ObjectNode) change).deepCopy();
      said.remove(List.of("id", "when"));
      Map<String, Object> body =
          BarMapJson.mapper().convertValue(said, new TypeReference<Map<String, Object>>() {});
      api.post(path, body, api.revision(path));
    }
  }

  public static Path page(String name) {
    String home = System.getProperty("barmap.home", "..");
    Path file = Path.of(home, "corpus", "saltmarsh", name);
    if (!Files.isRegularFile(file)) {
      throw new AssertionError("the demo book's page is missing: " + file);
    }
    return file;
  }
}
