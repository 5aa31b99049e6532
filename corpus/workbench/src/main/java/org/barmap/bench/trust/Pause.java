package org.barmap.bench.trust;

import java.io.InterruptedIOException;

/** A bench waits as people do. */
final class Pause {

  private Pause() {}

  static void of(long millis) throws InterruptedIOException {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException();
    }
  }
}
