package org.barmap.library;

import tools.jackson.databind.node.ObjectNode;

/** Puts values over an object as RFC 7396 has it: what is null in them is taken out. */
public final class MergePatch {
  private MergePatch() {}

  /**
   * Returns the object with the values in it; neither of the two is altered.
   *
   * @param values none of them an object
   */
  public static ObjectNode over(ObjectNode object, ObjectNode values) {
    ObjectNode merged = object.deepCopy();
    values
        .properties()
        .forEach(
            e -> {
              if (e.getValue().isNull()) {
                merged.remove(e.getKey());
              } else {
                merged.set(e.getKey(), e.getValue());
              }
            });
    return merged;
  }
}
