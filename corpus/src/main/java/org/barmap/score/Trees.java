package org.barmap.score;

import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** Lenient reading of JSON values. */
final class Trees {

  private Trees() {}

  /** Returns a comparable value: numbers as Double, text as String, anything else as null. */
  static @Nullable Object value(@Nullable JsonNode node) {
    if (node == null || node.isNull()) {
      return null;
    }
    if (node.isNumber()) {
      return node.doubleValue();
    }
    return node.isString() ? node.stringValue() : null;
  }

  /** Returns a number, or 0 where there is none. */
  static double number(@Nullable JsonNode node) {
    return value(node) instanceof Double d ? d : 0;
  }

  /** Returns four finite corners, or null. */
  static double @Nullable [][] quad(@Nullable JsonNode node) {
    if (node == null || !node.isArray() || node.size() != 4) {
      return null;
    }
    double[][] q = new double[4][];
    for (int i = 0; i < 4; i++) {
      double[] p = point(node.get(i));
      if (p == null) {
        return null;
      }
      q[i] = p;
    }
    return q;
  }

  /** Returns a finite point, or null. */
  static double @Nullable [] point(@Nullable JsonNode node) {
    if (node == null || !node.isArray() || node.size() < 2) {
      return null;
    }
    if (value(node.get(0)) instanceof Double x
        && value(node.get(1)) instanceof Double y
        && Double.isFinite(x)
        && Double.isFinite(y)) {
      return new double[] {x, y};
    }
    return null;
  }
}
