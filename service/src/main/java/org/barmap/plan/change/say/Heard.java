package org.barmap.plan.change.say;

import java.util.List;
import java.util.Optional;

/**
 * What became of one instruction.
 *
 * @param <C> the kind of change it may be
 */
public sealed interface Heard<C> {

  /** Returns the words it was about, as typed, with the number they are for. */
  String said();

  /** Returns what was understood as one way of several; empty when it is asked back. */
  default Optional<Reading<C>> reading() {
    return this instanceof Understood<C> understood
        ? Optional.of(new Reading<>(understood.sentence(), List.of(understood.change())))
        : Optional.empty();
  }

  /**
   * Understood.
   *
   * @param <C> the kind of change
   * @param said the words, as typed
   * @param change what it would do; its id is provisional
   * @param sentence what was understood, for the player to confirm
   */
  record Understood<C>(String said, C change, String sentence) implements Heard<C> {
    /** Returns the same, its words with their number. */
    public Understood<C> about(String words) {
      return new Understood<>(words, change, sentence);
    }
  }

  /**
   * Not understood, or more than one thing may be meant.
   *
   * @param <C> the kind of change it may have been
   * @param said the words, as typed
   * @param question what is asked back
   * @param candidates what to say instead, or bars that may be meant; may be empty
   * @param readings what it may mean, where the words leave more than one way or want a word more
   * @param keep what would keep the words as a note
   */
  record AskedBack<C>(
      String said,
      String question,
      List<String> candidates,
      List<Reading<C>> readings,
      Optional<C> keep)
      implements Heard<C> {
    /** Takes defensive copies. */
    public AskedBack {
      candidates = List.copyOf(candidates);
      readings = List.copyOf(readings);
    }

    /** Asks which of several ways is meant. */
    public AskedBack(
        String said, String question, List<String> candidates, List<Reading<C>> readings) {
      this(said, question, candidates, readings, Optional.empty());
    }

    /** Asks without knowing what may be meant. */
    public AskedBack(String said, String question, List<String> candidates) {
      this(said, question, candidates, List.of());
    }

    /** Returns the same, its words with their number, and what would keep them. */
    public AskedBack<C> about(String words, C note) {
      return new AskedBack<>(words, question, candidates, readings, Optional.of(note));
    }
  }

  /**
   * One way to understand words.
   *
   * @param <C> the kind of change
   * @param says it, short enough for a button
   * @param changes what it would do; empty where a word more is wanted
   */
  record Reading<C>(String says, List<C> changes) {
    /** Takes a defensive copy. */
    public Reading {
      changes = List.copyOf(changes);
    }

    /** Returns a way that wants a word more. */
    public static <C> Reading<C> wanting(String says) {
      return new Reading<>(says, List.of());
    }
  }
}
