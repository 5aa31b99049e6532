package org.barmap.plan.words.grammar;

import java.util.List;

/** What a sentence comes to. */
public sealed interface Meant {

  /**
   * It is understood.
   *
   * @param instructions the same in the words that the kinds of change read, each by itself
   */
  record Says(List<String> instructions) implements Meant {
    /** Takes a defensive copy. */
    public Says {
      instructions = List.copyOf(instructions);
    }
  }

  /**
   * It is about the form and has to be asked.
   *
   * @param question what isn't said
   * @param nearest instructions that may be meant, in the words that the kinds read
   */
  record Asks(String question, List<String> nearest) implements Meant {
    /** Takes a defensive copy. */
    public Asks {
      nearest = List.copyOf(nearest);
    }
  }

  /** It isn't about what this player plays: a remark, and nothing else. */
  record Remark() implements Meant {}

  /** Returns what one or more instructions say. */
  static Meant says(String... instructions) {
    return new Says(List.of(instructions));
  }
}
