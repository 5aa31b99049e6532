package org.barmap.web.access;

import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Map;
import org.barmap.work.Latest;

/**
 * Counts wrong keys by where they came from. A key of 160 random bits is never guessed; this keeps
 * somebody who tries from keeping the service busy.
 */
final class Tries {

  /** A person who mistypes an address gets as many as with most locks. */
  private static final int AT_ONCE = 5;

  private static final Duration WAIT = Duration.ofMinutes(1);

  /** Whoever has more addresses than this is slowed for the last ones only. */
  private static final int REMEMBERED = 1000;

  private record Count(int wrong, Instant last) {}

  private final InstantSource clock;
  private final Map<String, Count> counts = new Latest<>(REMEMBERED);

  Tries(InstantSource clock) {
    this.clock = clock;
  }

  /** Returns how long somebody has to wait, seconds; 0 for not at all. */
  synchronized long wait(String from) {
    Count count = counts.get(from);
    if (count == null) {
      return 0;
    }
    Duration left = Duration.between(clock.instant(), count.last.plus(WAIT));
    if (left.isNegative() || left.isZero()) {
      counts.remove(from);
      return 0;
    }
    return count.wrong < AT_ONCE ? 0 : left.toSeconds() + 1;
  }

  synchronized void wrong(String from) {
    Count before = counts.getOrDefault(from, new Count(0, Instant.EPOCH));
    counts.put(from, new Count(before.wrong + 1, clock.instant()));
  }
}
