package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.barmap.library.turn.Turn;
import org.barmap.library.turn.Turns;
import org.junit.jupiter.api.Test;

/** The row of books: who has which one, in what order, and what becomes of it when he is gone. */
class TurnsTest extends OnEachStore {

  /** So long a silence is that of one who is gone, in every store. */
  private static final Duration SILENCE = Duration.ofSeconds(30);

  private final List<String> taken = new CopyOnWriteArrayList<>();

  private String book(String title) {
    String book = library.books().add(title, "").id();
    library.jobs().add(book);
    return book;
  }

  /** Takes turns and does nothing in them. */
  private Turns.Place idler() {
    return library.turns().join(this::note);
  }

  private Turn.End note(Turn turn) {
    taken.add(turn.book());
    return Turn.End.DONE;
  }

  private void finish(String book) {
    library
        .jobs()
        .next(book)
        .ifPresent(job -> library.jobs().finish(job.id(), Job.State.DONE, "Read"));
  }

  private Turn.End finishing(Turn turn) {
    finish(turn.book());
    return note(turn);
  }

  private void sql(String statement) throws SQLException {
    try (Connection connection = store().connect(folder);
        Statement one = connection.createStatement()) {
      one.execute(statement);
    }
  }

  private int row() throws SQLException {
    try (Connection connection = store().connect(folder);
        Statement one = connection.createStatement();
        ResultSet rows = one.executeQuery("select count(*) from scheduled_tasks")) {
      rows.next();
      return rows.getInt(1);
    }
  }

  /** Lets whoever has a book be silent for a while; a shared store goes by a clock of its own. */
  private void silence() throws SQLException {
    clock.pass(SILENCE);
    if (store() == Stores.POSTGRES) {
      sql(
          "update scheduled_tasks set last_heartbeat = last_heartbeat - interval '%d seconds'"
              .formatted(SILENCE.toSeconds()));
    }
  }

  /** Takes a turn and is killed in it. */
  private void killed() {
    Turns.Place place =
        library
            .turns()
            .join(
                turn -> {
                  throw new ThreadDeath();
                });
    assertThatThrownBy(place::one).isInstanceOf(ThreadDeath.class);
  }

  @Test
  void booksTakeTurnsAndOneThatComesLaterWaitsForNoOtherTwice() {
    String one = book("Of six hundred pages");
    String two = book("Of four hundred");
    Turns.Place place = idler();
    place.one();
    place.one();
    place.one();
    String three = book("Of one page");
    for (int i = 0; i < 4; i++) {
      place.one();
    }
    assertThat(taken).containsExactly(one, two, one, two, one, three, two);
  }

  @Test
  void aBookIsWithOneAtATime() {
    String one = book("One");
    String two = book("Two");
    List<Boolean> others = new ArrayList<>();
    Turns.Place second = idler();
    library
        .turns()
        .join(
            turn -> {
              others.add(second.one());
              finish(two);
              others.add(second.one());
              others.add(second.one());
              return note(turn);
            })
        .one();
    assertThat(taken).startsWith(two).endsWith(one);
    assertThat(others).as("the second book, until it was read").startsWith(true).endsWith(false);
  }

  @Test
  void ofManyWhoAskAtOnceNoTwoHaveTheSameBook() throws Exception {
    List<String> books = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      books.add(book("Book " + i));
    }
    List<String> now = Collections.synchronizedList(new ArrayList<>());
    List<String> twice = new CopyOnWriteArrayList<>();
    CountDownLatch together = new CountDownLatch(1);
    ExecutorService workers = Executors.newFixedThreadPool(8);
    List<Future<Boolean>> done = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      Turns.Place place =
          library
              .turns()
              .join(
                  turn -> {
                    if (now.contains(turn.book())) {
                      twice.add(turn.book());
                    }
                    now.add(turn.book());
                    finish(turn.book());
                    now.remove(turn.book());
                    return note(turn);
                  });
      done.add(
          workers.submit(
              () -> {
                together.await();
                while (place.one()) {
                  // until none waits
                }
                return true;
              }));
    }
    together.countDown();
    for (Future<Boolean> one : done) {
      one.get();
    }
    workers.shutdown();
    assertThat(twice).isEmpty();
    Turns.Place last = idler();
    while (last.one()) {
      // one who lost the race for a book may have left another one
    }
    assertThat(taken).containsAll(books);
    assertThat(row()).as("all are read").isZero();
  }

  @Test
  void aJobAddedDuringTheLastStepIsNotMissed() throws SQLException {
    String book = book("One");
    Turns.Place place =
        library
            .turns()
            .join(
                turn -> {
                  finish(book);
                  if (taken.isEmpty()) {
                    library.jobs().add(book);
                  }
                  return note(turn);
                });
    assertThat(place.one()).isTrue();
    assertThat(place.one()).as("the job that was added").isTrue();
    assertThat(place.one()).isFalse();
    assertThat(row()).isZero();
  }

  @Test
  void whatIsHandedBackComesFirst() {
    String one = book("One");
    book("Two");
    Turns.Place ends =
        library
            .turns()
            .join(
                turn -> {
                  note(turn);
                  return Turn.End.HANDED_BACK;
                });
    ends.one();
    idler().one();
    assertThat(taken).containsExactly(one, one);
  }

  @Test
  void whoIsSilentLosesHisBookToOthersAndOnlyThen() throws SQLException {
    String one = book("One");
    killed();
    String two = book("Two");
    Turns.Place other = library.turns().join(this::finishing);
    other.begin();
    await().until(() -> taken.contains(two));
    other.close();
    assertThat(taken).as("he may still be there").doesNotContain(one);
    silence();
    Turns.Place third = library.turns().join(this::finishing);
    third.begin();
    await().until(() -> taken.contains(one));
    third.close();
    assertThat(row()).isZero();
  }

  @Test
  void whoComesBackAfterHisBookWasGivenToOthersChangesNothing() throws SQLException {
    String one = book("One");
    Turns.Place other = library.turns().join(this::finishing);
    List<Job.State> seen = new ArrayList<>();
    Turns.Place first =
        library
            .turns()
            .join(
                turn -> {
                  Job mine = library.jobs().next(one).orElseThrow();
                  try {
                    silence();
                  } catch (SQLException e) {
                    throw new IllegalStateException(e);
                  }
                  other.begin();
                  await().until(() -> taken.contains(one));
                  other.close();
                  seen.add(library.jobs().progress(mine.id(), 0, 1, "Reading page 1").state());
                  return note(turn);
                });
    assertThat(first.one()).isTrue();
    assertThat(seen).as("what is over stays so").containsExactly(Job.State.DONE);
    assertThat(row()).isZero();
  }

  @Test
  void whoseBookWasGivenToOthersIsTold() throws SQLException {
    book("One");
    CountDownLatch begun = new CountDownLatch(1);
    Turns.Place place =
        library
            .turns()
            .join(
                turn -> {
                  begun.countDown();
                  await().until(turn::isLost);
                  return note(turn);
                });
    place.begin();
    await().until(() -> begun.getCount() == 0);
    sql("update scheduled_tasks set version = version + 1");
    await().until(() -> !taken.isEmpty());
    place.close();
  }

  @Test
  void aBookWhoseJobFailedWaitsForItsPauseAndOthersGoOn() {
    String one = book("One");
    String two = book("Two");
    Turns.Place failing =
        library
            .turns()
            .join(
                turn -> {
                  String job = library.jobs().next(turn.book()).orElseThrow().id();
                  library.jobs().putOff(job, Duration.ofHours(2), "It failed");
                  note(turn);
                  throw new Turn.FailedException(new IllegalStateException("a defect"));
                });
    failing.one();
    Turns.Place place = idler();
    assertThat(place.one()).isTrue();
    assertThat(place.one()).isTrue();
    assertThat(taken).containsExactly(one, two, two);
    library.jobs().add(one);
    place.one();
    place.one();
    assertThat(taken).as("pages added to it are read at once").endsWith(two, one);
    assertThat(library.jobs().next(one).orElseThrow().failures()).isZero();
  }

  @Test
  void afterARestartAllIsFreeAtOnceAndABrokenOffBookComesFirst() throws IOException {
    String one = book("One");
    String two = book("Two");
    killed();
    reopen();
    Turns.Place place = idler();
    place.one();
    place.one();
    assertThat(taken).containsExactly(one, two);
  }

  @Test
  void aRowThatWasLostIsMadeAnewAtTheStart() throws IOException, SQLException {
    String one = book("One");
    String two = book("Two");
    finish(two);
    sql("delete from scheduled_tasks where task_instance = '" + one + "'");
    reopen();
    Turns.Place place = library.turns().join(this::finishing);
    while (place.one()) {
      // until none waits
    }
    assertThat(taken).containsExactly(one);
  }

  @Test
  void aBookInTheBinHasNoTurnUntilItIsBackAndARemovedOneLeavesNone() throws SQLException {
    String one = book("One");
    library.books().discard(one);
    Turns.Place place = idler();
    while (place.one()) {
      // it may be looked at once
    }
    assertThat(library.jobs().next(one)).isEmpty();
    assertThat(row()).isZero();
    library.books().restore(one);
    taken.clear();
    assertThat(place.one()).isTrue();
    assertThat(taken).containsExactly(one);
    library.books().discard(one);
    library.books().removeForGood(one);
    assertThat(row()).isZero();
  }
}
