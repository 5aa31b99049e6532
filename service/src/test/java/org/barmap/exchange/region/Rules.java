package org.barmap.exchange.region;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/**
 * What the published rules ask of documents, written down from them and not from the writers.
 *
 * <p>W3C Web Annotation Data Model (Recommendation, 23 February 2017), sections as named; IIIF
 * Presentation API 3.0 (sections 2 to 5) with the IIIF cookbook's recipes 0001 (simplest manifest),
 * 0005 (image service), 0009 (book) and 0269 (annotations that are referred to); IIIF Image API
 * 3.0, section 5 and its compliance document, level 0. From memory of these texts where they could
 * not be fetched; the compliance table was read.
 */
public final class Rules {

  private final List<String> broken = new ArrayList<>();
  private final Set<String> ids = new HashSet<>();

  /** Checks a W3C annotation collection: 5.1. */
  static List<String> collection(JsonNode node) {
    Rules rules = new Rules();
    rules.is(node, "@context", "http://www.w3.org/ns/anno.jsonld");
    rules.is(node, "type", "AnnotationCollection");
    rules.iri(node, "id");
    rules.wants(node.path("total").isIntegralNumber(), "total is a number");
    if (node.path("total").asInt() > 0) {
      rules.iri(node, "first");
      rules.iri(node, "last");
    }
    return rules.broken;
  }

  /** Checks a W3C annotation page: 5.2 and, for each annotation, 3 and 4. */
  static List<String> page(JsonNode node, String context) {
    Rules rules = new Rules();
    rules.is(node, "@context", context);
    rules.is(node, "type", "AnnotationPage");
    rules.iri(node, "id");
    rules.wants(node.path("items").isArray(), "items is a list");
    node.path("items").forEach(rules::annotation);
    return rules.broken;
  }

  private void annotation(JsonNode node) {
    is(node, "type", "Annotation"); // 3.1
    iri(node, "id");
    wants(ids.add(node.path("id").asString()), "ids occur once");
    Set<String> motivations = Set.of("identifying", "describing", "tagging", "linking", "painting");
    wants(motivations.contains(node.path("motivation").asString()), "motivation is one of 3.3.5");
    for (JsonNode body : node.path("body")) {
      if (body.path("type").asString().equals("TextualBody")) { // 3.2.4
        wants(!body.path("value").asString().isEmpty(), "a textual body has a value");
        wants(motivations.contains(body.path("purpose").asString()), "its purpose is one of 3.3.5");
      } else {
        iri(body, "id"); // 3.2.1
      }
    }
    JsonNode target = node.path("target");
    is(target, "type", "SpecificResource"); // 4
    iri(target.path("source"), "id");
    wants(target.path("selector").size() > 0, "it says which part");
    for (JsonNode selector : target.path("selector")) {
      if (selector.path("type").asString().equals("FragmentSelector")) { // 4.2.1
        is(selector, "conformsTo", "http://www.w3.org/TR/media-frags/");
        wants(
            selector.path("value").asString().matches("xywh=\\d+,\\d+,[1-9]\\d*,[1-9]\\d*"),
            "a fragment is xywh in pixels");
      } else { // 4.2.4
        is(selector, "type", "SvgSelector");
        wants(
            selector
                .path("value")
                .asString()
                .matches("<svg xmlns=\"http://www.w3.org/2000/svg\">.*</svg>"),
            "an SVG selector holds an SVG document");
      }
    }
  }

  /** Checks a IIIF manifest. */
  public static List<String> manifest(JsonNode node) {
    Rules rules = new Rules();
    rules.is(node, "@context", "http://iiif.io/api/presentation/3/context.json"); // 4.6
    rules.wants(
        node.propertyNames().iterator().next().equals("@context"), "@context comes first (4.6)");
    rules.is(node, "type", "Manifest");
    rules.iri(node, "id");
    rules.words(node, "label"); // 5.2: a manifest must have one
    rules.wants(node.path("items").size() > 0, "a manifest has at least one canvas (5.2)");
    for (JsonNode pair : node.path("metadata")) { // 3.1
      rules.words(pair, "label");
      rules.words(pair, "value");
    }
    node.path("items").forEach(rules::canvas);
    Set<String> canvases = new HashSet<>();
    node.path("items").forEach(c -> canvases.add(c.path("id").asString()));
    for (JsonNode range : node.path("structures")) { // 5.4
      rules.is(range, "type", "Range");
      rules.iri(range, "id");
      rules.words(range, "label");
      rules.wants(range.path("items").size() > 0, "a range has items");
      for (JsonNode item : range.path("items")) {
        rules.wants(
            canvases.contains(item.path("id").asString()), "ranges name canvases there are");
      }
    }
    return rules.broken;
  }

  private void canvas(JsonNode canvas) { // 5.3
    is(canvas, "type", "Canvas");
    iri(canvas, "id");
    wants(!canvas.path("id").asString().contains("#"), "a canvas' id has no fragment");
    words(canvas, "label");
    wants(canvas.path("height").asInt() > 0 && canvas.path("width").asInt() > 0, "it has a size");
    wants(canvas.path("items").size() == 1, "one page of painting annotations");
    for (JsonNode page : canvas.path("items")) {
      is(page, "type", "AnnotationPage");
      iri(page, "id");
      for (JsonNode painting : page.path("items")) {
        is(painting, "type", "Annotation");
        is(painting, "motivation", "painting");
        iri(painting, "id");
        is(painting, "target", canvas.path("id").asString());
        image(painting.path("body"));
      }
    }
    canvas.path("thumbnail").forEach(this::image);
    for (JsonNode other : canvas.path("annotations")) { // recipe 0269
      is(other, "type", "AnnotationPage");
      iri(other, "id");
    }
  }

  private void image(JsonNode image) { // recipe 0005
    is(image, "type", "Image");
    is(image, "format", "image/jpeg");
    iri(image, "id");
    wants(image.path("height").asInt() > 0 && image.path("width").asInt() > 0, "it has a size");
    wants(image.path("service").isArray(), "services are a list");
    for (JsonNode service : image.path("service")) {
      is(service, "type", "ImageService3");
      is(service, "profile", "level0");
      iri(service, "id");
      wants(
          image.path("id").asString().startsWith(service.path("id").asString() + "/full/"),
          "the image is one the service delivers");
    }
  }

  /** Checks what an image service says of itself. */
  public static List<String> info(JsonNode info) {
    Rules rules = new Rules();
    rules.is(info, "@context", "http://iiif.io/api/image/3/context.json"); // 5.1
    rules.is(info, "type", "ImageService3");
    rules.is(info, "protocol", "http://iiif.io/api/image");
    rules.is(info, "profile", "level0");
    rules.iri(info, "id");
    rules.wants(info.path("width").asInt() > 0 && info.path("height").asInt() > 0, "it has a size");
    rules.wants(info.path("sizes").size() > 0, "a service of fixed sizes names them");
    for (JsonNode size : info.path("sizes")) { // 5.3
      rules.wants(
          size.path("width").asInt() <= info.path("width").asInt()
              && size.path("height").asInt() <= info.path("height").asInt(),
          "no size is larger than the image");
    }
    rules.wants(info.path("tiles").isMissingNode(), "there are no tiles");
    return rules.broken;
  }

  private void words(JsonNode node, String key) { // 4.4: a language map with lists of strings
    JsonNode map = node.path(key);
    wants(map.isObject() && map.size() > 0, key + " is a language map");
    for (String language : map.propertyNames()) {
      wants(language.matches("[a-z]{2,3}|none"), key + " is in a language");
      wants(map.path(language).isArray() && map.path(language).size() > 0, key + " has a list");
    }
  }

  private void iri(JsonNode node, String key) {
    String text = node.path(key).asString("");
    wants(
        text.matches("https?://.+") && URI.create(text).isAbsolute(), key + " is an http address");
  }

  private void is(JsonNode node, String key, String value) {
    wants(node.path(key).asString("").equals(value), key + " is " + value);
  }

  private void wants(boolean kept, String rule) {
    if (!kept) {
      broken.add(rule);
    }
  }

  /** Says that no rule is broken. */
  static void assertKept(List<String> broken) {
    assertThat(broken).isEmpty();
  }
}
