package org.barmap.page.pixel;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.IntConsumer;
import java.util.function.IntFunction;

/**
 * Works on 0, 1, 2 … on all processors, each taking the next number when it is free.
 *
 * <p>Parallel streams part their work into a few pieces beforehand; with ten long tasks on two
 * processors one of them often waits for the other. Here it waits for one task at most, for the
 * shortest when the longest come first. The caller works along and never waits for a thread that
 * has not begun, so this may be used inside itself, and on threads of any pool.
 */
public final class Spread {

  private final int count;
  private final IntConsumer work;
  private final AtomicInteger next = new AtomicInteger();
  private final CountDownLatch left;
  private final AtomicReference<RuntimeException> failure = new AtomicReference<>();
  private final AtomicReference<Error> error = new AtomicReference<>();

  private Spread(int count, IntConsumer work) {
    this.count = count;
    this.work = work;
    this.left = new CountDownLatch(count);
  }

  /**
   * Does all the work and returns when it is done.
   *
   * @throws RuntimeException what one of the tasks threw, after all have ended
   */
  public static void over(int count, IntConsumer work) {
    Spread spread = new Spread(count, work);
    int helpers = Math.min(count - 1, ForkJoinPool.getCommonPoolParallelism());
    for (int i = 0; i < helpers; i++) {
      ForkJoinPool.commonPool().execute(spread::run);
    }
    spread.run();
    spread.await();
  }

  /** Returns what the function gives for 0, 1 … in this order. */
  public static <T> List<T> map(int count, IntFunction<T> function) {
    List<AtomicReference<T>> results = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      results.add(new AtomicReference<>());
    }
    over(count, i -> results.get(i).set(function.apply(i)));
    List<T> all = new ArrayList<>();
    for (AtomicReference<T> result : results) {
      all.add(result.get());
    }
    return Collections.unmodifiableList(all);
  }

  private void run() {
    for (int i = next.getAndIncrement(); i < count; i = next.getAndIncrement()) {
      try {
        work.accept(i);
      } catch (RuntimeException e) {
        failure.compareAndSet(null, e);
      } catch (Error e) {
        error.compareAndSet(null, e);
      } finally {
        left.countDown();
      }
    }
  }

  private void await() {
    boolean interrupted = false;
    while (left.getCount() > 0) {
      try {
        left.await();
      } catch (InterruptedException e) {
        interrupted = true; // what others work on reads our images: stay until they are done
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
    Error worst = error.get();
    if (worst != null) {
      throw worst;
    }
    RuntimeException thrown = failure.get();
    if (thrown != null) {
      throw thrown;
    }
  }
}
