package org.barmap.page.pixel;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.atomic.LongAdder;
import java.util.function.IntConsumer;

/**
 * The steps of reading a page, with the processor time each has taken in this process so far.
 *
 * <p>Every step runs on the thread that starts it, so its processor time tells its cost even on a
 * busy machine; what collecting garbage and compiling cost is in none of them.
 */
public enum WorkStep {
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
  /** What is written by hand on a page. */
  HAND,
  /** The reckoning over the book. */
  RECKONING;

  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  private final LongAdder nanos = new LongAdder();

  /** Returns the processor time of this thread so far, to be handed to {@link #done}. */
  public static long start() {
    return THREADS.isCurrentThreadCpuTimeSupported()
        ? THREADS.getCurrentThreadCpuTime()
        : System.nanoTime();
  }

  /** Adds the time since a start on the same thread. */
  public void done(long start) {
    nanos.add(start() - start);
  }

  /**
   * Works on 0, 1 … on all processors, within this step: between its start and its end on this
   * thread. What other threads help with is added.
   */
  public void spread(int count, IntConsumer work) {
    Thread own = Thread.currentThread();
    Spread.over(
        count,
        i -> {
          if (Thread.currentThread() == own) {
            work.accept(i);
          } else {
            long start = start();
            work.accept(i);
            done(start);
          }
        });
  }

  /** Returns the seconds of every step so far. */
  public static Map<WorkStep, Double> seconds() {
    Map<WorkStep, Double> all = new EnumMap<>(WorkStep.class);
    for (WorkStep step : values()) {
      all.put(step, step.nanos.sum() / 1e9);
    }
    return all;
  }

  /** Returns the name of the step as figures carry it. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
