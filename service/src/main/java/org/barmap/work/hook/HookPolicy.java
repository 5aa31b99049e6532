package org.barmap.work.hook;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.library.feed.Outbox;

/**
 * How often something is sent that does not arrive.
 *
 * @param pauses after the first failure, the second and so on; then it is given up, and the last
 *     one is kept before the next delivery
 * @param patience after so long without anything arriving nothing more is sent to a hook
 */
record HookPolicy(List<Duration> pauses, Duration patience) {

  /** Given up after most of a day, turned off after three days. */
  static final HookPolicy STANDARD =
      new HookPolicy(
          List.of(
              Duration.ofSeconds(10),
              Duration.ofMinutes(1),
              Duration.ofMinutes(5),
              Duration.ofMinutes(30),
              Duration.ofHours(2),
              Duration.ofHours(6),
              Duration.ofHours(12)),
          Duration.ofDays(3));

  Outbox.Failure after(Outbox.Sending sent, String answer, Instant now) {
    int failures = sent.delivery().tries() + 1;
    Duration pause = pauses.get(Math.min(failures, pauses.size()) - 1);
    Optional<String> off =
        sent.hook()
            .failingSince()
            .filter(since -> !now.isBefore(since.plus(patience)))
            .map(since -> "Nothing arrived for " + patience.toDays() + " days");
    return new Outbox.Failure(answer, pause, failures > pauses.size(), off);
  }
}
