package org.barmap.library;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * How a book's player turns and counts.
 *
 * @param turnSeconds how long a comfortable turn takes, 0.5 to 20
 * @param quickSeconds how long a quick turn takes, 0.2 to 10, at most a comfortable one
 * @param memoryBars how many bars the player trusts to memory, 0 to 32
 * @param changeSeconds how long a change of instrument takes, 1 to 120
 * @param repeatsAfterJump whether repeats are played again after a D.C. or D.S.
 * @param rehearsedAt when the last rehearsal ended; empty until a player says so
 */
public record Settings(
    double turnSeconds,
    double quickSeconds,
    int memoryBars,
    double changeSeconds,
    boolean repeatsAfterJump,
    Optional<Instant> rehearsedAt) {

  /** Reads an absent rehearsal as none. */
  public Settings {
    rehearsedAt = rehearsedAt == null ? Optional.empty() : rehearsedAt;
  }

  /** What holds until a player says otherwise. */
  public static final Settings USUAL = new Settings(2, 1, 4, 6, false, Optional.empty());

  /** Returns what is out of range, one sentence each; empty when nothing is. */
  public List<String> problems() {
    List<String> problems = new ArrayList<>();
    range(problems, "A turn takes 0.5 to 20 seconds", turnSeconds, 0.5, 20);
    range(problems, "A quick turn takes 0.2 to 10 seconds", quickSeconds, 0.2, 10);
    range(problems, "0 to 32 bars can be trusted to memory", memoryBars, 0, 32);
    range(problems, "A change takes 1 to 120 seconds", changeSeconds, 1, 120);
    if (quickSeconds > turnSeconds) {
      problems.add("A quick turn takes no longer than a comfortable one");
    }
    return problems;
  }

  private static void range(
      List<String> problems, String sentence, double value, double from, double to) {
    if (!(value >= from && value <= to)) {
      problems.add(sentence + ", not " + value);
    }
  }
}
