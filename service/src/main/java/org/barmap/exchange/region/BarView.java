package org.barmap.exchange.region;

import java.util.List;
import java.util.Optional;
import org.barmap.map.Bar;
import org.barmap.map.Point;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.node.ObjectNode;

/** What is told about one bar by its address: what it is called, where it lies, what is in it. */
public record BarView(Served served, BarPlaces places) {

  /**
   * Returns it as JSON: {@code address}, {@code number}, {@code bar}; {@code before} and {@code
   * after}, the addresses beside it; {@code block} for a bar in a rest of several bars; {@code
   * place} with page, line, outline and region, absent where the book has no pages; {@code entry}
   * as the map has it.
   */
  public ObjectNode of(BarPlaces.At at) {
    Bar entry = at.entry();
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    places.address(at).ifPresent(a -> node.put("address", a));
    node.put("number", at.number().label());
    node.put("title", at.number().title());
    node.put("bar", at.name());
    beside(at, -1).ifPresent(a -> node.put("before", a));
    beside(at, 1).ifPresent(a -> node.put("after", a));
    if (entry.count() > 1) {
      int start = at.slot() - at.within();
      node.putObject("block")
          .put("first", at.number().nameAt(start))
          .put("last", at.number().nameAt(start + entry.count() - 1))
          .put("bars", entry.count())
          .put("within", at.within() + 1);
    }
    page(entry).ifPresent(page -> node.set("place", place(entry, page)));
    node.set("entry", BarMapJson.mapper().valueToTree(entry));
    return node;
  }

  /** Returns the page a bar lies on; empty where it has no place on one. */
  public Optional<Served.Leaf> page(Bar entry) {
    return served.page(entry.page()).filter(Served.Leaf::hasRoom);
  }

  private Optional<String> beside(BarPlaces.At at, int bars) {
    return places.moved(at, bars).flatMap(places::address);
  }

  private static ObjectNode place(Bar entry, Served.Leaf page) {
    Region region = WebAnnotations.region(entry, page);
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    node.put("page", page.index()).put("pageId", page.id());
    node.put("width", page.width()).put("height", page.height());
    node.put("system", entry.system());
    node.put("region", region.fragment());
    List<Point> shape = region.shape();
    node.set("outline", BarMapJson.mapper().valueToTree(shape));
    return node;
  }
}
