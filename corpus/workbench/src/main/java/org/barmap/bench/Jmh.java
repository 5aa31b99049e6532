package org.barmap.bench;

import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.Options;
import org.openjdk.jmh.runner.options.OptionsBuilder;
import org.openjdk.jmh.runner.options.TimeValue;
import org.openjdk.jmh.runner.options.VerboseMode;

/**
 * Runs one JMH benchmark in a process of its own.
 *
 * <p>Every call is timed by itself, for some take milliseconds and their median is asked for, as a
 * person waits for one call at a time.
 */
final class Jmh {

  private Jmh() {}

  /**
   * Measures the only benchmark of a class.
   *
   * @param usualWarmUp calls before those that count, see {@link Rounds#warmUp}
   * @return the median of the calls that count, milliseconds
   */
  static double medianMillis(Class<?> benchmark, Rounds rounds, int usualWarmUp) {
    // two benches at once disturb each other, but neither should fail
    System.setProperty("jmh.ignoreLock", "true");
    Options options =
        new OptionsBuilder()
            .include("^" + benchmark.getName().replace(".", "\\.") + "\\.")
            .mode(Mode.SingleShotTime)
            .timeUnit(java.util.concurrent.TimeUnit.NANOSECONDS)
            .warmupIterations(rounds.warmUp(usualWarmUp))
            .measurementIterations(rounds.counted())
            .timeout(TimeValue.minutes(5))
            .forks(1)
            .shouldFailOnError(true)
            .verbosity(VerboseMode.SILENT)
            .build();
    try {
      double nanos =
          new Runner(options).runSingle().getPrimaryResult().getStatistics().getPercentile(50);
      return Rounds.rounded(nanos / 1e6);
    } catch (RunnerException e) {
      throw new IllegalStateException("the benchmark " + benchmark.getSimpleName() + " failed", e);
    }
  }
}
