package org.barmap.plan.change.kind;

import java.util.List;

/** What became of one instruction. */
public sealed interface Heard {

  /** Returns the words it was about, as typed. */
  String said();

  /**
   * Understood.
   *
   * @param said the words, as typed
   * @param change what it would do; its id is provisional
   * @param sentence what was understood, for the player to confirm
   */
  record Understood(String said, ShowChange change, String sentence) implements Heard {}

  /**
   * Not understood, or more than one thing may be meant.
   *
   * @param said the words, as typed
   * @param question what is asked back
   * @param candidates what to say instead, or bars that may be meant; may be empty
   */
  record AskedBack(String said, String question, List<String> candidates) implements Heard {
    /** Takes a defensive copy. */
    public AskedBack {
      candidates = List.copyOf(candidates);
    }
  }
}
