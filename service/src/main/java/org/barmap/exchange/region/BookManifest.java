package org.barmap.exchange.region;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.change.WrittenNumber;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A book as a manifest of the IIIF Presentation API 3.0: a canvas for each page that has a picture,
 * as large as that, the bars as annotations beside it, the musical numbers as ranges; and what an
 * image service of level 0 says of itself (Image API 3.0).
 */
public final class BookManifest {

  /** The media type of a manifest. */
  public static final String TYPE =
      "application/ld+json;profile=\"http://iiif.io/api/presentation/3/context.json\"";

  /** The media type of what an image service says of itself. */
  public static final String IMAGE_TYPE =
      "application/ld+json;profile=\"http://iiif.io/api/image/3/context.json\"";

  static final String CONTEXT = "http://iiif.io/api/presentation/3/context.json";
  private static final String IMAGE_CONTEXT = "http://iiif.io/api/image/3/context.json";

  private final Served served;
  private final BarMap map;

  /** Looks at a map and at where it is served. */
  public BookManifest(Served served, BarMap map) {
    this.served = served;
    this.map = map;
  }

  /** Returns the manifest; empty where no page has a picture, as a manifest has one canvas. */
  public Optional<ObjectNode> manifest() {
    List<Served.Leaf> pages =
        served.pages().stream().filter(p -> p.picture() && p.hasRoom()).toList();
    if (pages.isEmpty()) {
      return Optional.empty();
    }
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    node.put("@context", CONTEXT).put("id", served.manifest()).put("type", "Manifest");
    label(node, "en", served.name());
    ArrayNode metadata = node.putArray("metadata");
    pair(metadata, "Pages", Integer.toString(pages.size()));
    pair(metadata, "Bars", Integer.toString(map.writtenBars()));
    ObjectNode rented = node.putObject("requiredStatement");
    label(rented, "en", "Rights");
    values(
        rented,
        "The pictures are of a rented or bought part: they stay with who may use it, and are not"
            + " passed on.");
    node.putArray("behavior").add("paged");
    ArrayNode items = node.putArray("items");
    pages.forEach(p -> items.add(canvas(p)));
    ArrayNode ranges = BarMapJson.mapper().createArrayNode();
    ranges(pages).forEach(ranges::add);
    if (!ranges.isEmpty()) {
      node.set("structures", ranges);
    }
    return Optional.of(node);
  }

  private ObjectNode canvas(Served.Leaf page) {
    ObjectNode canvas = BarMapJson.mapper().createObjectNode();
    canvas.put("id", served.canvas(page)).put("type", "Canvas");
    label(canvas, "en", "Page " + page.index());
    canvas.put("height", page.height()).put("width", page.width());
    Sizes.Size small = Sizes.of(page.width(), page.height()).get(0);
    canvas.putArray("thumbnail").add(image(page, small, small.toString()));
    ObjectNode painted =
        canvas
            .putArray("items")
            .addObject()
            .put("id", served.canvas(page) + "/image")
            .put("type", "AnnotationPage")
            .putArray("items")
            .addObject();
    painted.put("id", served.canvas(page) + "/image/painting").put("type", "Annotation");
    painted.put("motivation", "painting");
    painted.set("body", image(page, new Sizes.Size(page.width(), page.height()), "max"));
    painted.put("target", served.canvas(page));
    canvas
        .putArray("annotations")
        .addObject()
        .put("id", served.annotations(page, true))
        .put("type", "AnnotationPage");
    return canvas;
  }

  private ObjectNode image(Served.Leaf page, Sizes.Size size, String said) {
    ObjectNode image = BarMapJson.mapper().createObjectNode();
    image.put("id", served.service(page) + "/full/" + said + "/0/default.jpg");
    image.put("type", "Image").put("format", "image/jpeg");
    image.put("height", size.height()).put("width", size.width());
    ObjectNode service = image.putArray("service").addObject();
    service.put("id", served.service(page)).put("type", "ImageService3").put("profile", "level0");
    sizes(service, page);
    return image;
  }

  private static void sizes(ObjectNode service, Served.Leaf page) {
    ArrayNode sizes = service.putArray("sizes");
    for (Sizes.Size s : Sizes.of(page.width(), page.height())) {
      sizes.addObject().put("width", s.width()).put("height", s.height());
    }
  }

  /** Returns what the image service of a page says of itself: its sizes, and nothing computed. */
  public ObjectNode info(Served.Leaf page) {
    ObjectNode info = BarMapJson.mapper().createObjectNode();
    info.put("@context", IMAGE_CONTEXT).put("id", served.service(page));
    info.put("type", "ImageService3").put("protocol", "http://iiif.io/api/image");
    info.put("profile", "level0");
    info.put("width", page.width()).put("height", page.height());
    sizes(info, page);
    return info;
  }

  /** A range for each number with bars on these pages; a range can't be empty. */
  private List<ObjectNode> ranges(List<Served.Leaf> pages) {
    List<ObjectNode> ranges = new ArrayList<>();
    List<WrittenNumber> numbers = WrittenNumber.all(map);
    for (int i = 0; i < numbers.size(); i++) {
      WrittenNumber number = numbers.get(i);
      Set<Integer> on = new LinkedHashSet<>();
      number.bars().stream().map(Bar::page).forEach(on::add);
      List<Served.Leaf> its = pages.stream().filter(p -> on.contains(p.index())).toList();
      if (number.label().isEmpty() || its.isEmpty()) {
        continue;
      }
      ObjectNode range = BarMapJson.mapper().createObjectNode();
      range.put("id", served.manifest() + "/range/" + (i + 1)).put("type", "Range");
      label(range, "en", number.spoken() + (number.title().isBlank() ? "" : " " + number.title()));
      ArrayNode items = range.putArray("items");
      its.forEach(p -> items.addObject().put("id", served.canvas(p)).put("type", "Canvas"));
      ranges.add(range);
    }
    return ranges;
  }

  private static void pair(ArrayNode metadata, String name, String value) {
    ObjectNode pair = metadata.addObject();
    label(pair, "en", name);
    values(pair, value);
  }

  private static void label(ObjectNode node, String language, String text) {
    node.putObject("label").putArray(language).add(text);
  }

  private static void values(ObjectNode node, String text) {
    node.putObject("value").putArray("en").add(text);
  }
}
