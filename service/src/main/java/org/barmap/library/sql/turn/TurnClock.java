package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.jdbi.v3.core.Handle;

/**
 * The moments by which books stand in the row. It never goes back and says no moment twice: a clock
 * that is set back goes on from where it was. All who share a store go by the clock of the store.
 */
public final class TurnClock implements Clock {

  private static final System.Logger LOG = System.getLogger(TurnClock.class.getName());

  /** The clock of a store, in milliseconds since 1970. */
  public interface Source {

    /** Asks on a connection of its own, where it takes one. */
    long millis();

    /** Asks inside a transaction, which must not wait for another connection. */
    long millis(Handle h);
  }

  private final Source store;
  private final long trusted;
  private boolean fresh = true;

  /** What the store said last, when that was, and how far it was set back since the first time. */
  private long said;

  private long asked;
  private long back;
  private long last = Long.MIN_VALUE;

  /**
   * Makes one.
   *
   * @param store says the moment; while it can't, time is counted here
   * @param trusted for so long time is counted here before the store is asked again
   */
  public TurnClock(Source store, Duration trusted) {
    this.store = store;
    this.trusted = trusted.toNanos();
  }

  @Override
  public Instant now() {
    return now(store::millis);
  }

  /** Returns the moment inside a transaction. */
  Instant now(Handle h) {
    return now(() -> store.millis(h));
  }

  private Instant now(LongSupplier says) {
    if (isToAsk()) {
      // outside of the lock: it may wait for a connection that one who waits for the lock has
      ask(says);
    }
    return next();
  }

  private synchronized boolean isToAsk() {
    return fresh || System.nanoTime() - asked >= trusted;
  }

  private synchronized Instant next() {
    long passed = trusted == 0 ? 0 : TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - asked);
    last = Math.max(last + 1, said + back + passed);
    return Instant.ofEpochMilli(last);
  }

  private void ask(LongSupplier says) {
    long nanos = System.nanoTime();
    try {
      heard(says.getAsLong(), nanos);
    } catch (RuntimeException e) {
      if (!goesOn(nanos)) {
        throw e;
      }
      LOG.log(System.Logger.Level.DEBUG, "the store can't be asked for the time", e);
    }
  }

  private synchronized void heard(long now, long nanos) {
    if (!fresh && nanos - asked < 0) {
      return; // somebody asked later, and was answered before
    }
    if (!fresh && now < said) {
      back += said - now;
    }
    said = now;
    fresh = false;
    asked = nanos;
  }

  /** Counts on from what the store said last; false when it never said anything. */
  private synchronized boolean goesOn(long nanos) {
    if (!fresh && nanos - asked > 0) {
      said += TimeUnit.NANOSECONDS.toMillis(nanos - asked);
      asked = nanos;
    }
    return !fresh;
  }
}
