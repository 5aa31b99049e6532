package org.barmap.library.sql.turn;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.LongSupplier;
import org.jdbi.v3.core.Handle;
import org.junit.jupiter.api.Test;

/** The clock that books stand in the row by. */
class TurnClockTest {

  private static final long HOUR = Duration.ofHours(1).toMillis();

  private final AtomicLong store = new AtomicLong(10 * HOUR);

  private static TurnClock.Source source(LongSupplier millis) {
    return new TurnClock.Source() {
      @Override
      public long millis() {
        return millis.getAsLong();
      }

      @Override
      public long millis(Handle h) {
        return millis.getAsLong();
      }
    };
  }

  @Test
  void itGoesOnWhereItWasWhenTheClockIsSetBackAndSaysNoMomentTwice() {
    TurnClock clock = new TurnClock(source(store::get), Duration.ZERO);
    Instant first = clock.now();
    assertThat(first).isEqualTo(Instant.ofEpochMilli(10 * HOUR));
    assertThat(clock.now()).isAfter(first);
    store.addAndGet(-HOUR);
    assertThat(clock.now()).isAfter(first).isBefore(first.plusSeconds(1));
    store.addAndGet(60_000);
    assertThat(clock.now())
        .as("a minute is a minute")
        .isBetween(first.plusSeconds(60), first.plusSeconds(61));
  }

  /** A store that several processes ask, and what it was told of its being set back. */
  private final class Told implements TurnClock.Source {
    private long ahead;

    @Override
    public long millis() {
      return store.get() + ahead;
    }

    @Override
    public long millis(Handle h) {
      return millis();
    }

    @Override
    public boolean goOnFrom(long millis) {
      ahead += Math.max(0, millis - millis());
      return true;
    }
  }

  /**
   * One is silent for four beats of a second and counts as gone: no two processes may be that far
   * apart, whenever each of them asked, nor who came after the clock was set back.
   */
  @Test
  void processesThatShareAStoreAgreeWhenItsClockIsSetBack() {
    for (long setBack : List.of(4_000L, 4_600L, 5_500L, 30_000L, HOUR)) {
      store.set(10 * HOUR);
      AtomicLong nanos = new AtomicLong();
      Told told = new Told();
      TurnClock one = new TurnClock(told, Duration.ofSeconds(5), nanos::get);
      TurnClock other = new TurnClock(told, Duration.ofSeconds(5), nanos::get);
      one.now();
      pass(nanos, 4_500);
      other.now();
      pass(nanos, 300);
      Instant before = one.now();
      store.addAndGet(-setBack);
      List<TurnClock> all = new ArrayList<>(List.of(one, other));
      for (int second = 0; second < 30; second++) {
        pass(nanos, 1_000);
        if (second == 7) {
          all.add(new TurnClock(told, Duration.ofSeconds(5), nanos::get));
        }
        List<Long> now = all.stream().map(c -> c.now().toEpochMilli()).toList();
        long apart =
            now.stream().mapToLong(Long::longValue).max().orElseThrow()
                - now.stream().mapToLong(Long::longValue).min().orElseThrow();
        assertThat(apart).as(setBack + " ms, second " + second).isLessThan(second < 6 ? 600 : 100);
        assertThat(now.get(0)).isGreaterThan(before.toEpochMilli());
      }
    }
  }

  private void pass(AtomicLong nanos, long millis) {
    nanos.addAndGet(TimeUnit.MILLISECONDS.toNanos(millis));
    store.addAndGet(millis);
  }

  @Test
  void whoAsksTheStoreHoldsUpNobodyAndAnOlderAnswerIsNoClockSetBack() {
    List<Instant> beside = new ArrayList<>();
    AtomicReference<TurnClock> self = new AtomicReference<>();
    boolean[] slow = {false};
    TurnClock clock =
        new TurnClock(
            source(
                () -> {
                  long now = store.get();
                  if (slow[0]) {
                    slow[0] = false;
                    store.addAndGet(HOUR);
                    beside.add(
                        CompletableFuture.supplyAsync(
                                () -> Objects.requireNonNull(self.get()).now())
                            .orTimeout(20, TimeUnit.SECONDS)
                            .join());
                  }
                  return now;
                }),
            Duration.ZERO);
    self.set(clock);
    assertThat(clock.now()).isEqualTo(Instant.ofEpochMilli(10 * HOUR));
    slow[0] = true;
    Instant after = clock.now();
    assertThat(beside).hasSize(1);
    assertThat(after).isAfter(beside.get(0)).isBefore(beside.get(0).plusSeconds(1));
    store.addAndGet(60_000);
    assertThat(clock.now()).isBetween(after.plusSeconds(59), after.plusSeconds(61));
  }

  @Test
  void whileTheStoreIsAwayTimeIsCountedHere() {
    boolean[] away = {false};
    TurnClock clock =
        new TurnClock(
            source(
                () -> {
                  if (away[0]) {
                    throw new IllegalStateException("away");
                  }
                  return store.get();
                }),
            Duration.ofNanos(1));
    Instant first = clock.now();
    away[0] = true;
    assertThat(clock.now()).isAfter(first).isBefore(first.plusSeconds(60));
  }
}
