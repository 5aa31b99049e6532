package org.barmap.plan.change;

import java.util.List;
import org.barmap.map.json.BadDocumentException;

/** A document that is no valid list of changes. */
public final class BadChangesException extends BadDocumentException {
  private static final long serialVersionUID = 1L;

  /** Takes the places that are wrong, one sentence each; at least one. */
  public BadChangesException(List<String> reasons) {
    super(reasons);
  }
}
