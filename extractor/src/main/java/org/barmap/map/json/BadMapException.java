package org.barmap.map.json;

import java.util.List;

/** A document that is no valid bar map. */
public final class BadMapException extends BadDocumentException {
  private static final long serialVersionUID = 1L;

  /** Takes the places that are wrong, one sentence each; at least one. */
  public BadMapException(List<String> reasons) {
    super(reasons);
  }
}
