package org.barmap.edit;

import java.util.List;
import org.barmap.edit.draft.Change;
import org.barmap.edit.draft.Draft;

/** What came of a correction. */
public sealed interface Outcome {

  /**
   * It was made.
   *
   * @param draft the draft after it
   * @param change the values it changed
   * @param text one line for the history, "Rest at bar 34: 3 → 8"
   */
  record Done(Draft draft, Change change, String text) implements Outcome {}

  /** It does not fit the map; one plain sentence each, at least one. */
  record Refused(List<String> reasons) implements Outcome {

    /** Takes a defensive copy. */
    public Refused {
      reasons = List.copyOf(reasons);
    }
  }
}
