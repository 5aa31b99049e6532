package org.barmap.library;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;

/** A clock that is set by hand. */
public final class HandClock extends Clock {

  private volatile Instant now;

  /** Makes a clock that stands at a moment. */
  public HandClock(Instant now) {
    this.now = now;
  }

  /** Lets time pass. */
  public void pass(Duration time) {
    now = now.plus(time);
  }

  @Override
  public ZoneId getZone() {
    return ZoneOffset.UTC;
  }

  @Override
  public Clock withZone(ZoneId zone) {
    return this;
  }

  @Override
  public Instant instant() {
    return now;
  }
}
