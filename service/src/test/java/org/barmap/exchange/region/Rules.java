package org.barmap.exchange.region;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/**
 * What the published rules ask of documents. Their shape is held to the two schemas beside this
 * class, whose {@code README.md} says where they come from. What no schema says is asked here: IIIF
 * Presentation API 3.0 (sections as named) with the cookbook's recipes 0005 (image service) and
 * 0009 (book); Image API 3.0, section 5 and its compliance document, level 0.
 */
public final class Rules {

  private static final Schema IIIF = schema("presentation-3.json");
  private static final Schema W3C = schema("web-annotation.json");

  private final List<String> broken = new ArrayList<>();
  private final Set<String> ids = new HashSet<>();

  private static Schema schema(String name) {
    return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
        .getSchema(document(name));
  }

  /** Returns a document that is kept beside the rules. */
  static JsonNode document(String name) {
    try (InputStream in = Rules.class.getResourceAsStream(name)) {
      byte[] bytes = Objects.requireNonNull(in, name).readAllBytes();
      return BarMapJson.mapper().readTree(new String(bytes, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Returns what of a document breaks the shape that W3C gives annotations. */
  static List<String> annotations(JsonNode node) {
    return shape(W3C, node);
  }

  /** Returns what of a document breaks the shape that IIIF gives manifests and their pages. */
  static List<String> presentation(JsonNode node) {
    return shape(IIIF, node);
  }

  private static List<String> shape(Schema schema, JsonNode node) {
    return schema.validate(node).stream()
        .map(e -> e.getInstanceLocation() + ": " + e.getMessage())
        .toList();
  }

  /** Checks the places that annotations of one page are about. */
  static List<String> places(JsonNode page) {
    Rules rules = new Rules();
    for (JsonNode node : page.path("items")) {
      rules.wants(rules.ids.add(node.path("id").asString()), "ids occur once");
      for (JsonNode selector : node.path("target").path("selector")) {
        String value = selector.path("value").asString();
        if (selector.path("type").asString().equals("FragmentSelector")) { // 4.2.1
          rules.is(selector, "conformsTo", "http://www.w3.org/TR/media-frags/");
          rules.wants(
              value.matches("xywh=\\d+,\\d+,[1-9]\\d*,[1-9]\\d*"), "a fragment is xywh in pixels");
        } else { // 4.2.7
          rules.wants(
              value.matches("<svg xmlns=\"http://www.w3.org/2000/svg\">.*</svg>"),
              "an SVG selector holds an SVG document");
        }
      }
    }
    return rules.broken;
  }

  /** Checks a IIIF manifest. */
  public static List<String> manifest(JsonNode node) {
    Rules rules = new Rules();
    rules.broken.addAll(presentation(node));
    rules.wants(
        node.propertyNames().iterator().next().equals("@context"), "@context comes first (4.6)");
    rules.wants(node.path("items").size() > 0, "a manifest has at least one canvas (5.2)");
    Set<String> canvases = new HashSet<>();
    for (JsonNode canvas : node.path("items")) {
      String id = canvas.path("id").asString();
      rules.wants(canvases.add(id) && !id.contains("#"), "a canvas' id is its own (5.3)");
      rules.wants(canvas.path("items").size() == 1, "one page of painting annotations (5.3)");
      for (JsonNode painting : canvas.path("items").path(0).path("items")) {
        rules.is(painting, "motivation", "painting");
        rules.is(painting, "target", id);
        rules.image(painting.path("body"));
      }
      canvas.path("thumbnail").forEach(rules::image);
    }
    for (JsonNode range : node.path("structures")) { // 5.4
      rules.wants(range.path("items").size() > 0, "a range has items");
      for (JsonNode item : range.path("items")) {
        rules.wants(
            canvases.contains(item.path("id").asString()), "ranges name canvases there are");
      }
    }
    return rules.broken;
  }

  private void image(JsonNode image) { // recipe 0005
    is(image, "type", "Image");
    is(image, "format", "image/jpeg");
    wants(image.path("height").asInt() > 0 && image.path("width").asInt() > 0, "it has a size");
    for (JsonNode service : image.path("service")) {
      is(service, "type", "ImageService3");
      is(service, "profile", "level0");
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
    rules.wants(info.path("id").asString().startsWith("http"), "id is an address");
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
