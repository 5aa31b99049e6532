package org.barmap.exchange.region;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The bars of a book as W3C Web Annotations (Web Annotation Data Model, Recommendation of 23
 * February 2017): a page of annotations for each page of the book, and a collection of those.
 *
 * <p>The target is the page's picture with a {@code FragmentSelector}, and an {@code SvgSelector}
 * beside it where the staff is bent or leans. The bodies say what stands there: a sentence, the
 * bar's number or label (for a rest of several bars from the first to the last), and its address.
 */
public final class WebAnnotations {

  /** The media type of all these documents. */
  public static final String TYPE =
      "application/ld+json; profile=\"http://www.w3.org/ns/anno.jsonld\"";

  private static final String CONTEXT = "http://www.w3.org/ns/anno.jsonld";
  private static final String MEDIA_FRAGMENTS = "http://www.w3.org/TR/media-frags/";

  private final Served served;
  private final Map<Integer, List<Bar>> byPage;
  private final BarPlaces places;

  /** Looks at a map and at where it is served. */
  public WebAnnotations(Served served, BarMap map) {
    this.served = served;
    this.byPage = map.bars().stream().collect(Collectors.groupingBy(Bar::page));
    this.places = new BarPlaces(map);
  }

  /** Returns the collection of a book's pages of annotations; 0 in all for a book without pages. */
  public ObjectNode collection() {
    ObjectNode node = begin(CONTEXT, served.annotations(), "AnnotationCollection");
    node.put("label", "Bars of " + served.name());
    node.put("total", roomy().stream().mapToInt(p -> bars(p).size()).sum());
    List<Served.Leaf> pages = roomy();
    if (!pages.isEmpty()) {
      node.put("first", served.annotations(pages.get(0), false));
      node.put("last", served.annotations(pages.get(pages.size() - 1), false));
    }
    return node;
  }

  /** Returns the annotations of one page, over its picture. */
  public ObjectNode page(Served.Leaf page) {
    ObjectNode node = annotated(page, false, CONTEXT);
    node.putObject("partOf").put("id", served.annotations()).put("type", "AnnotationCollection");
    List<Served.Leaf> pages = roomy();
    int at = pages.indexOf(page);
    int before = pages.subList(0, Math.max(0, at)).stream().mapToInt(p -> bars(p).size()).sum();
    node.put("startIndex", before);
    if (at > 0) {
      node.put("prev", served.annotations(pages.get(at - 1), false));
    }
    if (at >= 0 && at + 1 < pages.size()) {
      node.put("next", served.annotations(pages.get(at + 1), false));
    }
    return node;
  }

  /** Returns the annotations of one page over its canvas, for a IIIF manifest. */
  public ObjectNode onCanvas(Served.Leaf page) {
    return annotated(page, true, BookManifest.CONTEXT);
  }

  private ObjectNode annotated(Served.Leaf page, boolean canvas, String context) {
    ObjectNode node = begin(context, served.annotations(page, canvas), "AnnotationPage");
    ArrayNode items = node.putArray("items");
    for (Bar bar : bars(page)) {
      items.add(annotation(bar, page, canvas));
    }
    return node;
  }

  private ObjectNode annotation(Bar bar, Served.Leaf page, boolean canvas) {
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    node.put("id", served.annotations(page, canvas) + "#" + bar.id());
    node.put("type", "Annotation");
    node.put("motivation", "identifying");
    ArrayNode bodies = node.putArray("body");
    Optional<BarPlaces.At> first = places.first(bar);
    bodies.add(text("describing", describe(bar, first)));
    bodies.add(text("identifying", names(bar, first)));
    first
        .flatMap(places::address)
        .ifPresent(
            address -> {
              bodies.add(text("tagging", address));
              ObjectNode link = BarMapJson.mapper().createObjectNode();
              link.put("id", served.bar(address)).put("type", "Dataset");
              bodies.add(link.put("format", "application/json"));
            });
    node.set("target", target(bar, page, canvas));
    return node;
  }

  private ObjectNode target(Bar bar, Served.Leaf page, boolean canvas) {
    ObjectNode target = BarMapJson.mapper().createObjectNode();
    target.put("type", "SpecificResource");
    ObjectNode source = target.putObject("source");
    if (canvas) {
      source.put("id", served.canvas(page)).put("type", "Canvas");
      ArrayNode in = source.putArray("partOf");
      in.addObject().put("id", served.manifest()).put("type", "Manifest");
    } else {
      source.put("id", served.image(page)).put("type", "Image");
    }
    Region region = region(bar, page);
    ArrayNode selectors = target.putArray("selector");
    selectors
        .addObject()
        .put("type", "FragmentSelector")
        .put("conformsTo", MEDIA_FRAGMENTS)
        .put("value", region.fragment());
    if (!region.isBox()) {
      selectors.addObject().put("type", "SvgSelector").put("value", region.svg());
    }
    return target;
  }

  /** Returns where a bar lies on its page. */
  static Region region(Bar bar, Served.Leaf page) {
    return page.system(bar.system())
        .map(s -> Region.of(bar.outline(), s, page.width(), page.height()))
        .orElseGet(() -> Region.of(bar.outline(), page.width(), page.height()));
  }

  private static ObjectNode begin(String context, String id, String type) {
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    return node.put("@context", context).put("id", id).put("type", type);
  }

  private static ObjectNode text(String purpose, String value) {
    ObjectNode node = BarMapJson.mapper().createObjectNode();
    node.put("type", "TextualBody").put("value", value);
    return node.put("format", "text/plain").put("language", "en").put("purpose", purpose);
  }

  private static String describe(Bar bar, Optional<BarPlaces.At> first) {
    String number =
        first
            .map(BarPlaces.At::number)
            .filter(n -> !n.label().isEmpty())
            .map(n -> n.spoken() + (n.title().isBlank() ? "" : " " + n.title()) + ", ")
            .orElse("");
    String bars = (bar.count() == 1 ? "bar " : "bars ") + names(bar, first);
    String mark = bar.rehearsal().map(m -> ", mark " + m.text()).orElse("");
    String what =
        bar.content() == Content.MUSIC
            ? ""
            : ", " + bar.content().word().replace('-', ' ').replace("multi rest", "rest");
    String said = number + bars + mark + what;
    return said.substring(0, 1).toUpperCase(Locale.ROOT) + said.substring(1);
  }

  /** A bar's number or label; of a rest of several bars the first and the last. */
  static String names(Bar bar, Optional<BarPlaces.At> first) {
    String name = first.map(BarPlaces.At::name).orElse(Integer.toString(bar.number()));
    return bar.count() == 1 ? name : name + "\u2013" + (bar.nextNumber() - 1);
  }

  private List<Bar> bars(Served.Leaf page) {
    return byPage.getOrDefault(page.index(), List.of());
  }

  private List<Served.Leaf> roomy() {
    return served.pages().stream().filter(Served.Leaf::hasRoom).toList();
  }
}
