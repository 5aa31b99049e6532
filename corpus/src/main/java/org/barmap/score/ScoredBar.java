package org.barmap.score;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** One bar entry as the scorer sees it, with the entry of the other map it was paired with. */
final class ScoredBar {

  /** A meter's figures. */
  record MeterOf(Object beats, @Nullable Object unit) {}

  final String id;
  final Object page;
  double @Nullable [][] outline;
  final double @Nullable [][] span;
  final @Nullable Double number;
  final boolean hasNumber;
  final boolean hasCount;
  final boolean hasContent;
  final boolean hasEnd;
  final int count;
  final String content;
  final @Nullable MeterOf meter;
  final boolean printedKnown;
  boolean printed;
  final String mark;
  final String enclosure;
  String end;
  final String start;
  final @Nullable Double confidence;
  final List<String> signs = new ArrayList<>();
  final double silentStart;
  final double silentEnd;
  final boolean hasEnding;
  final List<String> ending = new ArrayList<>();
  final boolean hasSigns;
  int position;
  @Nullable ScoredBar match;
  double overlap;

  ScoredBar(JsonNode b, String fallbackId, boolean isTruth) {
    id = b.path("id").asString(fallbackId);
    Object p = b.has("page") ? Trees.value(b.get("page")) : (Object) 1.0;
    page = p == null ? "" : p;
    outline = Trees.quad(b.get("outline"));
    span = span(b.get("endSpan"));
    number = Trees.value(b.get("number")) instanceof Double d ? d : null;
    hasNumber = !isTruth || number != null;
    hasCount = b.has("count");
    hasContent = b.has("content");
    hasEnd = b.has("endBarline");
    count = count(b.get("count"));
    content = b.path("content").asString("music");
    JsonNode m = b.path("meter");
    Object beats = Trees.value(m.get("beats"));
    meter = beats == null ? null : new MeterOf(beats, Trees.value(m.get("unit")));
    printedKnown = m.has("printed") && !m.path("printed").isNull();
    printed = m.path("printed").asBoolean(false);
    JsonNode r = b.path("rehearsal");
    mark = text(r.isObject() ? r.path("text") : r);
    enclosure = r.path("enclosure").asString("");
    end = hasEnd ? text(b.path("endBarline")) : "single";
    start = text(b.path("startBarline"));
    JsonNode c = b.path("confidence");
    confidence = c.isNumber() ? (Double) c.doubleValue() : null;
    hasSigns = b.has("signs");
    b.path("signs").forEach(s -> signs.add(s.asString("")));
    silentStart = b.path("silentStart").asDouble(0);
    silentEnd = b.path("silentEnd").asDouble(0);
    hasEnding = b.has("ending");
    b.path("ending").forEach(e -> ending.add(e.asString("")));
  }

  private static double @Nullable [][] span(@Nullable JsonNode node) {
    if (node == null || !node.isArray() || node.size() != 2) {
      return null;
    }
    double[] a = Trees.point(node.get(0));
    double[] b = Trees.point(node.get(1));
    return a == null || b == null ? null : new double[][] {a, b};
  }

  private static int count(@Nullable JsonNode node) {
    Object value = Trees.value(node);
    if (value instanceof Double d) {
      return d == 0 ? 1 : (int) d.doubleValue();
    }
    try {
      return value == null ? 1 : Integer.parseInt(value.toString().strip());
    } catch (NumberFormatException e) {
      return 1;
    }
  }

  private static String text(JsonNode node) {
    return node.isString() || node.isNumber() ? node.asString("").strip() : "";
  }

  /** Returns the corners, which a judged bar must have. */
  double[][] corners() {
    double[][] q = outline;
    if (q == null) {
      throw new IllegalArgumentException("bar " + id + " of the truth has no outline");
    }
    return q;
  }

  boolean sameNumber(ScoredBar other) {
    return Objects.equals(number, other.number);
  }

  boolean sameMeter(ScoredBar other) {
    return Objects.equals(meter, other.meter);
  }

  String name() {
    return number == null ? id : "bar " + Math.round(number);
  }
}
