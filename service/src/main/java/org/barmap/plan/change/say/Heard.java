package org.barmap.plan.change.say;

import java.util.List;

/**
 * What became of one instruction.
 *
 * @param <C> the kind of change it may be
 */
public sealed interface Heard<C> {

  /** Returns the words it was about, as typed. */
  String said();

  /**
   * Understood.
   *
   * @param <C> the kind of change
   * @param said the words, as typed
   * @param change what it would do; its id is provisional
   * @param sentence what was understood, for the player to confirm
   */
  record Understood<C>(String said, C change, String sentence) implements Heard<C> {}

  /**
   * Not understood, or more than one thing may be meant.
   *
   * @param <C> the kind of change it may have been
   * @param said the words, as typed
   * @param question what is asked back
   * @param candidates what to say instead, or bars that may be meant; may be empty
   */
  record AskedBack<C>(String said, String question, List<String> candidates) implements Heard<C> {
    /** Takes a defensive copy. */
    public AskedBack {
      candidates = List.copyOf(candidates);
    }
  }
}
