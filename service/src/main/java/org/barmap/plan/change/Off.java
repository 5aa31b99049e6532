package org.barmap.plan.change;

import org.barmap.plan.change.kind.ShowChange;

/** Changes that a way of a question does without. */
public final class Off {
  private Off() {}

  /** Returns the same change, switched off: it stays in the list and does nothing. */
  public static ShowChange of(ShowChange change) {
    return ChangesJson.one(ChangesJson.tree(change).put("on", false));
  }
}
