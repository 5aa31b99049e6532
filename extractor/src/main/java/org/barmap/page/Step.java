package org.barmap.page;

import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;

/**
 * The steps of reading a page, with the time each has taken in this process so far.
 *
 * <p>Time is what passes on the clock from a step's start to its end; steps of several pages, or of
 * one page on several threads, add up.
 */
public enum Step {
  /** File to gray picture. */
  DECODE,
  /** Where the paper lies. */
  OUTLINE,
  /** Slope and distance of the level lines, gutter. */
  LEVEL,
  /** The one resampling to an upright picture of fixed scale. */
  UPRIGHT,
  /** Even light. */
  LIGHT,
  /** How sharp it is. */
  SHARPNESS,
  /** Tracing the staves. */
  STAVES,
  /** Straightening them. */
  STRIPS,
  /** The sign network. */
  SIGNS,
  /** Barlines and boxes out of what the network says. */
  BOXES,
  /** Cutting out what is to be read. */
  CROPS,
  /** The numeral network. */
  NUMERALS,
  /** The general text model. */
  WORDS,
  /** Looks at the ink, and everything else done with the signs of a page. */
  LOOKS,
  /** The reckoning over the book. */
  RECKONING;

  private final LongAdder nanos = new LongAdder();

  /** Returns the clock's reading, to be handed to {@link #done}. */
  public static long start() {
    return System.nanoTime();
  }

  /** Adds the time since a start. */
  public void done(long start) {
    nanos.add(System.nanoTime() - start);
  }

  /** Returns the seconds of every step so far. */
  public static Map<Step, Double> seconds() {
    Map<Step, Double> all = new EnumMap<>(Step.class);
    for (Step step : values()) {
      all.put(step, step.nanos.sum() / 1e9);
    }
    return all;
  }

  /** Returns the name of the step as figures carry it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
