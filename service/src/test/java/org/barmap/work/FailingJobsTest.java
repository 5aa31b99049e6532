package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.library.HandClock;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.PageState;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.sign.ReadPage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A job that fails waits longer and longer, lets others go first and says what is wrong. */
class FailingJobsTest {

  /** Reads as the stand-in does, but can't settle one book. */
  private static final class Stumbling implements PageReader {
    private final StandInReader reader = new StandInReader();
    private boolean stumbles = true;

    @Override
    public List<Result> read(Path picture, String source, int index) {
      return reader.read(picture, source, index);
    }

    @Override
    public BarMap settle(Book book, List<ReadPage> pages) {
      if (stumbles && book.title().equals("Rocks")) {
        throw new IllegalStateException("a defect of ours");
      }
      return reader.settle(book, pages);
    }

    @Override
    public void close() {
      reader.close();
    }
  }

  /** And what the row's own clock, which says no moment twice, may be ahead. */
  private static final Duration A_MINUTE = Duration.ofSeconds(61);

  @TempDir private Path folder;

  private final HandClock clock = new HandClock(Instant.parse("2026-11-24T20:00:00Z"));
  private final Stumbling reader = new Stumbling();
  private SqliteLibrary library;
  private Worker worker;
  private String rocks = "";
  private String harbour = "";

  @BeforeEach
  void open() throws IOException {
    library = SqliteLibrary.open(folder, clock);
    worker = new Worker(library, reader, new Events());
  }

  @AfterEach
  void close() {
    library.close();
  }

  private void twoBooks() throws IOException {
    rocks = library.books().add("Rocks", "Bass").id();
    harbour = library.books().add("Harbour", "Bass").id();
    add(rocks, "rock.png");
    add(harbour, "ship.png");
  }

  private void add(String book, String name) throws IOException {
    Path file = library.pages().folder(book).resolve("u-" + name);
    BlankPage.into(file);
    library.jobs().add(book, List.of(new Jobs.Upload("id-" + name, name, file)));
  }

  private Job job(String book) {
    return library.jobs().latest(book).orElseThrow();
  }

  @Test
  void othersGoFirstWhileItWaits() throws IOException {
    twoBooks();
    assertThat(worker.runOne()).isTrue();
    Job failed = job(rocks);
    assertThat(failed.state()).isEqualTo(Job.State.WAITING);
    assertThat(failed.text()).contains("page 1 of 1", "failed", "next try in 1 minute");
    assertThat(worker.runOne()).isTrue();
    assertThat(job(harbour).state()).isEqualTo(Job.State.DONE);
    assertThat(worker.runOne()).as("the pause is not over").isFalse();
    library.close();
    open();
    assertThat(worker.runOne()).as("nor is it after a restart").isFalse();
    clock.pass(A_MINUTE);
    add(harbour, "boat.png");
    // a page that is new goes before one that failed
    worker.runOne();
    assertThat(library.pages().all(harbour)).as("not held up").hasSize(2);
    assertThat(job(harbour).state()).isEqualTo(Job.State.DONE);
    worker.runOne();
    assertThat(job(rocks).text()).contains("next try in 5 minutes");
    assertThat(library.pages().all(rocks).get(0).state()).isEqualTo(PageState.READ);
  }

  @Test
  void whatFailedByChanceIsDoneAtTheNextTry() throws IOException {
    twoBooks();
    worker.runOne();
    worker.runOne();
    reader.stumbles = false;
    clock.pass(A_MINUTE);
    assertThat(worker.runOne()).isTrue();
    assertThat(job(rocks).state()).isEqualTo(Job.State.DONE);
    assertThat(job(rocks).text()).isEqualTo("Read 1 page");
  }

  /** What waits for another try is still to come, for whoever asks whether a book is read. */
  @Test
  void aBookIsNotReadBecauseALaterJobIs() throws IOException {
    rocks = library.books().add("Rocks", "Bass").id();
    add(rocks, "rock.png");
    worker.runOne();
    Job failed = job(rocks);
    reader.stumbles = false;
    add(rocks, "reef.png");
    worker.runAll();
    assertThat(library.pages().all(rocks)).hasSize(2);
    assertThat(job(rocks).id()).isEqualTo(failed.id());
    assertThat(job(rocks).state()).isEqualTo(Job.State.WAITING);
    clock.pass(A_MINUTE);
    worker.runAll();
    assertThat(job(rocks).state()).isEqualTo(Job.State.DONE);
  }

  @Test
  void itIsGivenUpInTheEndAndSaysWhatToDo() throws IOException {
    twoBooks();
    for (int i = 0; i < RetryPolicy.STANDARD.tries(); i++) {
      while (worker.runOne()) {
        // until nothing is due
      }
      clock.pass(RetryPolicy.STANDARD.longest().plusSeconds(1));
    }
    assertThat(job(rocks).state()).isEqualTo(Job.State.FAILED);
    assertThat(job(rocks).text()).contains("Given up", "take out the pages added last");
    assertThat(worker.runOne()).isFalse();
    assertThat(job(harbour).state()).isEqualTo(Job.State.DONE);
  }

  @Test
  void aBookRemovedWhileItIsReadLeavesNothing() throws IOException {
    twoBooks();
    Events events = new Events();
    worker = new Worker(library, reader, events);
    events.listen(
        rocks,
        (name, data) -> {
          if (name.equals("page")) {
            library.books().discard(rocks);
            library.books().removeForGood(rocks);
          }
        });
    assertThat(worker.runOne()).isTrue();
    assertThat(folder.resolve("books").resolve(rocks)).doesNotExist();
    assertThat(library.jobs().latest(rocks)).isEmpty();
    assertThat(worker.runOne()).isTrue();
    assertThat(job(harbour).state()).isEqualTo(Job.State.DONE);
  }

  @Test
  void thePausesGrowAndEnd() {
    RetryPolicy policy = RetryPolicy.STANDARD;
    assertThat(List.of(1, 2, 3, 4, 5).stream().map(policy::pauseAfter).map(Optional::orElseThrow))
        .containsExactly(
            Duration.ofMinutes(1),
            Duration.ofMinutes(5),
            Duration.ofMinutes(25),
            Duration.ofHours(2),
            Duration.ofHours(2));
    assertThat(policy.pauseAfter(6)).isEmpty();
  }
}
