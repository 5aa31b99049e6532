package org.barmap.work.hook;

import java.nio.charset.StandardCharsets;
import org.barmap.library.feed.Delivery;
import org.barmap.library.feed.Told;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.node.ObjectNode;

/** What a hook is told: ids, numbers and addresses; nothing of what is in a book. */
final class HookBody {

  private HookBody() {}

  static byte[] of(Delivery delivery) {
    ObjectNode body = BarMapJson.mapper().createObjectNode();
    body.put("delivery", delivery.id());
    body.put("event", delivery.event().word());
    body.put("at", delivery.madeAt().toString());
    delivery.book().ifPresent(book -> about(body, delivery, "/api/books/" + book));
    return BarMapJson.mapper()
        .writer()
        .without(tools.jackson.databind.SerializationFeature.INDENT_OUTPUT)
        .writeValueAsString(body)
        .getBytes(StandardCharsets.UTF_8);
  }

  private static void about(ObjectNode body, Delivery delivery, String at) {
    body.put("book", delivery.book().orElseThrow());
    ObjectNode links = BarMapJson.mapper().createObjectNode();
    links.put("book", at);
    if (delivery.event() != Told.TRIED) {
      body.put("revision", delivery.revision());
    }
    switch (delivery.event()) {
      case CHECKED -> {
        int edition = delivery.edition().orElseThrow();
        body.put("edition", edition);
        links.put("edition", at + "/editions/" + edition);
        if (edition > 1) {
          links.put("changes", at + "/editions/" + edition + "/changes?since=" + (edition - 1));
        }
      }
      case CHANGED -> links.put("map", at + "/map");
      case PLAN_CHANGED -> links.put("plan", at + "/plan");
      case TRIED -> {
        // the book is all there is to look at
      }
    }
    body.set("links", links);
  }
}
