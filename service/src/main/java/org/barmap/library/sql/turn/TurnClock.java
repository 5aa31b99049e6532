package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import org.jdbi.v3.core.Handle;

/**
 * The moments by which books stand in the row. It never goes back and says no moment twice: a clock
 * that is set back goes on from where it would be. All who share a store go by the clock of the
 * store, and tell it where it was set back: else who notices that would take the others for dead.
 */
public final class TurnClock implements Clock {

  private static final System.Logger LOG = System.getLogger(TurnClock.class.getName());

  /** The clock of a store, in milliseconds since 1970. */
  public interface Source {

    /** Asks on a connection of its own, where it takes one. */
    long millis();

    /** Asks inside a transaction, which must not wait for another connection. */
    long millis(Handle h);

    /**
     * Lets the store say no moment before one, from now on and to all who share it: it was set
     * back. Whoever comes later goes by what the others do.
     *
     * @return false where nobody shares it
     */
    default boolean goOnFrom(long millis) {
      return false;
    }
  }

  /**
   * Two clocks drift apart by less than a beat while one of them is not asked; more is no drift.
   */
  private static final long DRIFT_MILLIS = 500;

  private final Source store;
  private final long trusted;
  private final LongSupplier nanos;
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
    this(store, trusted, System::nanoTime);
  }

  TurnClock(Source store, Duration trusted, LongSupplier nanos) {
    this.store = store;
    this.trusted = trusted.toNanos();
    this.nanos = nanos;
  }

  @Override
  public Instant now() {
    Instant now = now(store::millis);
    long ahead = ahead();
    if (ahead > 0) {
      long begun = nanos.getAsLong();
      try {
        if (store.goOnFrom(ahead)) {
          agreed(ahead, begun);
        }
      } catch (RuntimeException e) {
        LOG.log(System.Logger.Level.DEBUG, "the store can't be told of the time", e);
      }
    }
    return now;
  }

  /** Returns where the store should be, which was set back; 0 where it was not. */
  private synchronized long ahead() {
    return back == 0 ? 0 : said + back + passed();
  }

  private synchronized void agreed(long now, long begun) {
    said = now;
    asked = begun;
    back = 0;
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
    return fresh || nanos.getAsLong() - asked >= trusted;
  }

  private synchronized Instant next() {
    last = Math.max(last + 1, said + back + (trusted == 0 ? 0 : passed()));
    return Instant.ofEpochMilli(last);
  }

  /** Since the store was asked. */
  private long passed() {
    return TimeUnit.NANOSECONDS.toMillis(nanos.getAsLong() - asked);
  }

  private void ask(LongSupplier says) {
    long begun = nanos.getAsLong();
    try {
      heard(says.getAsLong(), begun);
    } catch (RuntimeException e) {
      if (!goesOn(begun)) {
        throw e;
      }
      LOG.log(System.Logger.Level.DEBUG, "the store can't be asked for the time", e);
    }
  }

  private synchronized void heard(long now, long begun) {
    if (!fresh && begun - asked < 0) {
      return; // somebody asked later, and was answered before
    }
    long behind = said + TimeUnit.NANOSECONDS.toMillis(begun - asked) - now;
    if (!fresh && (now < said || behind > DRIFT_MILLIS)) {
      back += behind;
    }
    said = now;
    fresh = false;
    asked = begun;
  }

  /** Counts on from what the store said last; false when it never said anything. */
  private synchronized boolean goesOn(long begun) {
    if (!fresh && begun - asked > 0) {
      said += TimeUnit.NANOSECONDS.toMillis(begun - asked);
      asked = begun;
    }
    return !fresh;
  }
}
