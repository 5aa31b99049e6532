package org.barmap.page.pixel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicIntegerArray;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(value = 60, unit = TimeUnit.SECONDS)
class SpreadTest {

  @Test
  void everyNumberIsWorkedOnOnceAndResultsKeepTheirOrder() {
    AtomicIntegerArray times = new AtomicIntegerArray(5000);
    List<Integer> squares =
        Spread.map(
            5000,
            i -> {
              times.incrementAndGet(i);
              return i * i;
            });
    assertThat(squares).isEqualTo(IntStream.range(0, 5000).mapToObj(i -> i * i).toList());
    assertThat(IntStream.range(0, 5000).allMatch(i -> times.get(i) == 1)).isTrue();
    assertThat(Spread.map(0, i -> i)).isEmpty();
  }

  @Test
  void itMayBeUsedInsideItself() {
    List<Integer> sums =
        Spread.map(40, i -> Spread.map(40, j -> i * j).stream().mapToInt(Integer::intValue).sum());
    assertThat(sums.get(3)).isEqualTo(3 * 40 * 39 / 2);
  }

  @Test
  void aFailureComesOutAfterAllElseIsDone() {
    AtomicIntegerArray times = new AtomicIntegerArray(100);
    assertThatThrownBy(
            () ->
                Spread.over(
                    100,
                    i -> {
                      times.incrementAndGet(i);
                      if (i == 7) {
                        throw new IllegalStateException("seven");
                      }
                    }))
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("seven");
    assertThat(IntStream.range(0, 100).allMatch(i -> times.get(i) == 1)).isTrue();
    assertThatThrownBy(
            () ->
                Spread.over(
                    3,
                    i -> {
                      throw new OutOfMemoryError("made up");
                    }))
        .isInstanceOf(OutOfMemoryError.class);
  }

  @Test
  void aPoolWithoutAFreeThreadIsNotWaitedFor() {
    CountDownLatch hold = new CountDownLatch(1);
    for (int i = 0; i < ForkJoinPool.getCommonPoolParallelism(); i++) {
      ForkJoinPool.commonPool()
          .execute(
              () -> {
                try {
                  hold.await();
                } catch (InterruptedException e) {
                  Thread.currentThread().interrupt();
                }
              });
    }
    try {
      assertThat(Spread.map(10, i -> i)).hasSize(10);
    } finally {
      hold.countDown();
    }
    assertThat(ForkJoinPool.commonPool().awaitQuiescence(20, TimeUnit.SECONDS)).isTrue();
  }
}
