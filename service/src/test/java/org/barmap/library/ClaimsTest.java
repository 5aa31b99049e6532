package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/** Several workers at one queue. */
class ClaimsTest extends OnEachStore {

  private String job(String title) {
    return library.jobs().add(library.books().add(title, "").id()).id();
  }

  private Optional<String> take(String worker) {
    return library.jobs().take(worker).map(Job::id);
  }

  /** Lets time pass for the queue: on a shared store that is the database's own clock. */
  private void silence(Duration time) throws SQLException {
    clock.pass(time);
    if (store() == Stores.POSTGRES) {
      try (Connection connection = store().connect(folder);
          Statement statement = connection.createStatement()) {
        statement.execute("update job set beat_at = beat_at - " + time.toMillis());
      }
    }
  }

  @Test
  void aJobIsOfOneWorkerAndABookTooUntilHeLetsGo() {
    String one = job("One");
    String two = job("Two");
    String book = library.jobs().take("a").orElseThrow().book();
    String again = library.jobs().add(book).id();
    assertThat(take("b")).contains(two);
    assertThat(take("c")).as("the book is being read").isEmpty();
    library.jobs().leave(one, "c");
    assertThat(take("c")).as("it is not his").isEmpty();
    library.jobs().finish(one, Job.State.DONE, "Read");
    assertThat(take("c")).contains(again);
    library.jobs().leave(two, "b");
    assertThat(take("d")).contains(two);
  }

  @Test
  void whoSaysNothingAnyMoreLosesHisJob() throws SQLException {
    String one = job("One");
    assertThat(take("a")).contains(one);
    silence(Jobs.LEASE.minusMillis(500));
    assertThat(library.jobs().keep(one, "a")).isTrue();
    silence(Jobs.LEASE.minusMillis(500));
    assertThat(take("b")).as("he said that he is still there").isEmpty();
    silence(Duration.ofSeconds(1));
    assertThat(take("b")).contains(one);
    assertThat(library.jobs().keep(one, "a")).isFalse();
    library.jobs().leave(one, "a");
    assertThat(take("c")).as("it is another one's now").isEmpty();
  }

  @Test
  void afterARestartAllIsFreeAtOnce() throws IOException {
    String one = job("One");
    assertThat(take("a")).contains(one);
    reopen();
    assertThat(take("b")).contains(one);
  }

  @Test
  void booksTakeTurns() {
    String one = job("Long");
    assertThat(take("a")).contains(one);
    assertThat(library.jobs().othersWait(one)).isFalse();
    library.jobs().hadTurn(one);
    library.jobs().hadTurn(one);
    String two = job("Added later");
    assertThat(library.jobs().othersWait(one)).isTrue();
    library.jobs().hadTurn(one);
    library.jobs().leave(one, "a");
    assertThat(take("a")).contains(two);
    assertThat(library.jobs().othersWait(two)).as("the other one had more turns").isFalse();
    library.jobs().hadTurn(two);
    assertThat(library.jobs().othersWait(two)).isTrue();
    library.jobs().leave(two, "a");
    assertThat(take("a")).contains(one);
  }

  @Test
  void ofManyWhoAskAtOnceNobodyGetsTheSameJobNorTheSameBook() throws Exception {
    List<String> books = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      String book = library.books().add("Book " + i, "").id();
      library.jobs().add(book);
      library.jobs().add(book);
      books.add(book);
    }
    ExecutorService workers = Executors.newFixedThreadPool(8);
    CountDownLatch together = new CountDownLatch(1);
    List<Future<Optional<Job>>> taken = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      String worker = "w" + i;
      taken.add(
          workers.submit(
              () -> {
                together.await();
                return library.jobs().take(worker);
              }));
    }
    together.countDown();
    List<String> got = new ArrayList<>();
    for (Future<Optional<Job>> one : taken) {
      one.get().map(Job::book).ifPresent(got::add);
    }
    workers.shutdown();
    assertThat(got).containsExactlyInAnyOrderElementsOf(books);
  }
}
