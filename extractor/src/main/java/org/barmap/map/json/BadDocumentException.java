package org.barmap.map.json;

import java.util.List;

/** A document that is not valid in its format, with every reason. */
public abstract class BadDocumentException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  @SuppressWarnings("serial") // always an immutable list of strings
  private final List<String> reasons;

  /** Takes the places that are wrong, one sentence each; at least one. */
  protected BadDocumentException(List<String> reasons) {
    super(String.join("; ", reasons.subList(0, Math.min(3, reasons.size()))));
    this.reasons = List.copyOf(reasons);
  }

  /** Returns every reason, one sentence each. */
  public List<String> reasons() {
    return reasons;
  }
}
