package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.Stores;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Books take turns at the workers, wherever those are. */
class BookTurnsTest {

  @TempDir private Path folder;

  private static String add(Library library, String title, int pages) throws IOException {
    String book = library.books().add(title, "Bass").id();
    List<Jobs.Upload> uploads = new ArrayList<>();
    for (int i = 0; i < pages; i++) {
      Path file = library.pages().folder(book).resolve(title + i + ".png");
      BlankPage.into(file);
      uploads.add(new Jobs.Upload(title + i, title + i + ".png", file));
    }
    library.jobs().add(book, uploads);
    return book;
  }

  private static long read(Library library, String book) {
    return library.pages().all(book).stream().filter(p -> p.state() == PageState.READ).count();
  }

  @ParameterizedTest
  @EnumSource(Stores.class)
  void aLongBookHoldsUpNoShortOne(Stores store) throws IOException {
    try (Library library = store.open(folder, Clock.systemUTC())) {
      StandInReader reader = new StandInReader();
      Worker worker = new Worker(library, reader, new Events());
      String book = add(library, "long", 12);
      List<String> other = new ArrayList<>();
      reader.during(2, () -> other.add(added(library)));
      while (other.isEmpty()) {
        worker.runOne();
      }
      assertThat(read(library, book)).as("a short one came").isEqualTo(2);
      assertThat(worker.runOne()).isTrue();
      assertThat(library.jobs().latest(other.get(0)).orElseThrow().state())
          .isEqualTo(Job.State.DONE);
      assertThat(read(library, book)).isEqualTo(2);
      worker.runAll();
      assertThat(library.jobs().latest(book).orElseThrow().state()).isEqualTo(Job.State.DONE);
      assertThat(worker.runOne()).isFalse();
    }
  }

  /** A library is added, then a page by somebody else; then a few pages by a third. */
  @ParameterizedTest
  @EnumSource(Stores.class)
  void onePageWaitsForNoLibrary(Stores store) throws IOException {
    try (Library library = store.open(folder, Clock.systemUTC())) {
      StandInReader reader = new StandInReader();
      Worker worker = new Worker(library, reader, new Events());
      for (int i = 0; i < 5; i++) {
        add(library, "long" + i, 22); // more than a song
      }
      worker.runOne();
      add(library, "one", 1);
      add(library, "song", 4);
      worker.runOne();
      assertThat(reader.seen()).containsExactly("one0.png");
      // each file of the song is opened in a turn, its first page is read in the last of these
      for (int i = 0; i < 4 + 3; i++) {
        worker.runOne();
      }
      assertThat(reader.seen())
          .containsExactly("one0.png", "song0.png", "song1.png", "song2.png", "song3.png");
      worker.runAll();
      assertThat(reader.seen()).hasSize(5 * 22 + 5);
    }
  }

  /** While somebody adds one page after the other, which come first, a book of many goes on. */
  @ParameterizedTest
  @EnumSource(Stores.class)
  void aLongBookIsReadWhileShortOnesKeepComing(Stores store) throws IOException {
    try (Library library = store.open(folder, Clock.systemUTC())) {
      StandInReader reader = new StandInReader();
      Worker worker = new Worker(library, reader, new Events());
      String book = add(library, "long", 30);
      while (read(library, book) == 0) {
        worker.runOne();
      }
      List<String> others = new ArrayList<>();
      for (int i = 0; i < 30; i++) {
        others.add(add(library, "short" + i + "-", 1));
        worker.runOne();
      }
      // its own turn may be the tenth: it has the next one only if it waits
      int more = (int) read(library, book) - 1;
      assertThat(more).as("about every tenth turn was its").isBetween(2, 3);
      assertThat(others.stream().filter(o -> read(library, o) == 1)).hasSize(30 - more);
    }
  }

  private static String added(Library library) {
    try {
      return add(library, "short", 1);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void twoProcessesReadEveryPageOnceAndHearEachOther() throws Exception {
    try (Library one = Stores.POSTGRES.open(folder, Clock.systemUTC());
        Library two = Stores.POSTGRES.open(folder, Clock.systemUTC())) {
      StandInReader first = new StandInReader();
      StandInReader second = new StandInReader();
      Events here = new Events(one.signals());
      List<String> heard = new CopyOnWriteArrayList<>();
      List<String> books = new ArrayList<>();
      for (int i = 0; i < 4; i++) {
        books.add(add(one, "b" + i, 3));
        here.listen(books.get(i), (name, data) -> heard.add(name));
      }
      try (Worker a = new Worker(one, first, here);
          Worker b = new Worker(two, second, new Events(two.signals()))) {
        b.start();
        await().untilAsserted(() -> assertThat(heard).contains("job", "page", "map"));
        a.start();
        await()
            .until(
                () ->
                    books.stream()
                        .allMatch(
                            book ->
                                one.jobs().latest(book).orElseThrow().state() == Job.State.DONE));
      }
      assertThat(first.seen().size() + second.seen().size()).isEqualTo(12);
      assertThat(second.seen()).isNotEmpty();
      for (String book : books) {
        assertThat(one.pages().all(book)).extracting(PageCard::state).containsOnly(PageState.READ);
        assertThat(one.drafts().find(book).orElseThrow().value().map().bars()).hasSize(18);
      }
    }
  }
}
