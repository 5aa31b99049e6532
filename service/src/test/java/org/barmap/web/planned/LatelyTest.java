package org.barmap.web.planned;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** What was worked out lately is worked out once, and goes by its weight. */
class LatelyTest {

  private final AtomicInteger worked = new AtomicInteger();
  private final Lately<String, Integer> lately = new Lately<>(10);

  private int of(String key, int weight) {
    return lately.of(key, weight, worked::incrementAndGet);
  }

  @Test
  void theOneUsedLongestAgoGoesWhereAllWouldWeighTooMuch() {
    assertThat(of("a", 4)).isEqualTo(1);
    assertThat(of("b", 4)).isEqualTo(2);
    assertThat(of("a", 4)).isEqualTo(1);
    assertThat(of("c", 4)).isEqualTo(3);
    assertThat(of("a", 4)).as("used after b").isEqualTo(1);
    assertThat(of("b", 4)).as("it had to go").isEqualTo(4);
    assertThat(of("heavy", 50)).isEqualTo(5);
    assertThat(of("heavy", 50)).as("alone it may be heavier than all").isEqualTo(5);
  }

  @Test
  void whoAsksMeanwhileWaitsForTheOneThatWorks() throws Exception {
    CountDownLatch go = new CountDownLatch(1);
    ExecutorService pool = Executors.newFixedThreadPool(3);
    List<Future<Integer>> answers = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      answers.add(
          pool.submit(
              () ->
                  lately.of(
                      "a",
                      1,
                      () -> {
                        int now = worked.incrementAndGet();
                        try {
                          go.await();
                        } catch (InterruptedException e) {
                          Thread.currentThread().interrupt();
                        }
                        return now;
                      })));
    }
    await().until(() -> worked.get() > 0);
    go.countDown();
    for (Future<Integer> answer : answers) {
      assertThat(answer.get()).isEqualTo(1);
    }
    pool.shutdown();
  }

  @Test
  void whatFailedIsTriedAgain() {
    assertThatThrownBy(
            () ->
                lately.of(
                    "a",
                    1,
                    () -> {
                      throw new IllegalArgumentException("no");
                    }))
        .isInstanceOf(IllegalArgumentException.class);
    assertThat(of("a", 1)).isEqualTo(1);
  }

  @Test
  void whatIsForgottenIsWorkedOutAnewAndWeighsNothing() {
    of("a1", 4);
    of("a2", 4);
    lately.forget(key -> key.equals("a1"));
    assertThat(of("b", 4)).isEqualTo(3);
    assertThat(of("a2", 4)).as("there was room").isEqualTo(2);
    assertThat(of("a1", 1)).as("forgotten").isEqualTo(4);
  }
}
