package org.barmap.plan.words.grammar;

import static org.barmap.plan.change.term.Phrase.phrase;

import java.util.regex.Pattern;
import org.barmap.plan.change.term.Numerals;

/** What stands behind "hold 12": until when, or for how long, which no cue ends. */
public final class Waiting {
  private static final Pattern COUNTED =
      phrase(
          "(?:about\\s+)?(?:"
              + Numerals.CARDINAL
              + ")(?:\\s+(?:beats?|bars?|counts?|seconds?|crotchets?|quarters?))?|an?\\s+(?:little\\s+)?(?:while|bit|moment|second|beat|bar)");

  private Waiting() {}

  /** Returns it as the kinds of change read it: a length is a note. */
  public static String behind(String cue) {
    return COUNTED.matcher(cue.strip()).matches() ? " (for " + cue.strip() + ")" : " till " + cue;
  }
}
