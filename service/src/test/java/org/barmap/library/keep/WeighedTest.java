package org.barmap.library.keep;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** A memory that is bounded by what its things weigh. */
class WeighedTest {

  private final Weighed<String> weighed = new Weighed<>(10, String::length);

  @Test
  void theOneUsedLongestAgoGoesWhereAllWouldWeighTooMuch() {
    weighed.note("a", "four");
    weighed.note("b", "four");
    assertThat(weighed.find("a")).contains("four");
    weighed.note("c", "four");
    assertThat(weighed.find("b")).as("a was used after it").isEmpty();
    weighed.note("heavy", "more than all of them");
    assertThat(weighed.find("heavy")).as("alone it may be heavier than all").isPresent();
    assertThat(weighed.size()).isOne();
    weighed.note("heavy", "light");
    weighed.note("d", "four");
    assertThat(weighed.size()).as("it weighs what it is now").isEqualTo(2);
  }

  @Test
  void whatWeighsNothingIsBoundedToo() {
    for (int i = 0; i < 5000; i++) {
      weighed.note("book" + i, "");
    }
    assertThat(weighed.size()).isEqualTo(10);
  }

  @Test
  void whatIsForgottenWeighsNothing() {
    weighed.note("a", "eight..");
    weighed.forget("a");
    weighed.forget("a");
    weighed.note("b", "four");
    weighed.note("c", "four");
    assertThat(weighed.find("b")).isPresent();
    assertThat(weighed.size()).isEqualTo(2);
  }
}
