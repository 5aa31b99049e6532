package org.barmap.work;

import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.LongAdder;

/** How much was read since the program started, and how long it took. */
public final class ReadingCounts {

  private final LongAdder pages = new LongAdder();
  private final LongAdder failed = new LongAdder();
  private final LongAdder nanos = new LongAdder();

  ReadingCounts() {}

  /** Counts a picture that was looked at, whatever came of it. */
  void looked(long nanoseconds) {
    pages.increment();
    nanos.add(nanoseconds);
  }

  /** Counts a page that can't be read. */
  void failedOne() {
    failed.increment();
  }

  /** Returns how many pictures were looked at. */
  public long pages() {
    return pages.sum();
  }

  /** Returns how many pages can't be read. */
  public long failed() {
    return failed.sum();
  }

  /** Returns how long looking took in all. */
  public double seconds() {
    return (double) nanos.sum() / TimeUnit.SECONDS.toNanos(1);
  }
}
