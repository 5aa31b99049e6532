package org.barmap.work;

import java.io.IOException;
import java.sql.SQLException;
import java.time.Duration;
import java.util.Optional;
import org.barmap.library.picture.StoreAwayException;

/**
 * When a job that failed is tried again: after pauses that grow, until it is given up.
 *
 * @param first pause after the first failure
 * @param growth how many times as long each pause is as the one before
 * @param longest no pause is longer
 * @param tries with so many failures it is given up
 */
record RetryPolicy(Duration first, int growth, Duration longest, int tries) {

  /** What fails by chance, as a full disk, is mended within minutes or by the next hours. */
  static final RetryPolicy STANDARD =
      new RetryPolicy(Duration.ofMinutes(1), 5, Duration.ofHours(2), 6);

  /** Returns a pause as a person says it. */
  static String words(Duration pause) {
    boolean hours = pause.toHours() > 0;
    long many = hours ? pause.toHours() : pause.toMinutes();
    return many + (hours ? " hour" : " minute") + (many == 1 ? "" : "s");
  }

  /**
   * Returns how long to wait.
   *
   * @param failures how often it has failed, 1 or more
   * @return empty when it is given up
   */
  Optional<Duration> pauseAfter(int failures) {
    if (failures >= tries) {
      return Optional.empty();
    }
    Duration pause = first;
    for (int i = 1; i < failures && pause.compareTo(longest) < 0; i++) {
      pause = pause.multipliedBy(growth);
    }
    return Optional.of(pause.compareTo(longest) < 0 ? pause : longest);
  }

  /** Says what may help against a failure. */
  static String advice(Throwable e) {
    if (e.getCause() instanceof StoreAwayException) {
      return "see that the store of pictures answers";
    }
    return isOfTheDisk(e) ? "make room on the disk" : "take out the pages added last";
  }

  private static boolean isOfTheDisk(Throwable e) {
    boolean disk = false;
    for (Throwable t = e; t != null && !disk; t = t.getCause()) {
      disk = t instanceof IOException || t instanceof SQLException;
    }
    return disk;
  }
}
