package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.barmap.library.Job;
import org.barmap.library.Library;
import org.barmap.library.PageState;
import org.barmap.library.Pages;
import org.barmap.library.picture.ApartPictures;
import org.barmap.library.sqlite.SqliteLibrary;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What becomes of pages whose pictures can't be brought. */
class PicturesAwayTest {

  private static final String PICTURE = "u0123456789abcdef0123456789abcdef.png";

  @TempDir private Path folder;

  private Path apart() {
    return folder.resolve("apart");
  }

  private Library library() throws IOException {
    return SqliteLibrary.open(
        folder.resolve("data"),
        ApartPictures.of(apart(), folder.resolve("data")),
        Clock.systemUTC());
  }

  /** A book of one page whose picture is kept apart only. */
  private static String book(Library library) throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    Path file = DrawnPage.draw(library.pages().folder(book).resolve(PICTURE), 4, 4);
    library
        .pages()
        .add(
            book,
            List.of(new Pages.NewPage("one.png", PICTURE, 1240, 800, Optional.empty())),
            Optional.empty());
    library.jobs().add(book);
    Files.delete(file);
    return book;
  }

  @Test
  void whileTheirStoreIsAwayNoPageFails() throws IOException {
    try (Library library = library()) {
      String book = book(library);
      Path away = Files.move(apart(), folder.resolve("away"));
      Worker worker = new Worker(library, new StandInReader(), new Events());
      assertThat(worker.runOne()).isTrue();
      assertThat(library.pages().all(book).get(0).state()).isEqualTo(PageState.WAITING);
      Job job = library.jobs().latest(book).orElseThrow();
      assertThat(job.state()).isEqualTo(Job.State.WAITING);
      assertThat(job.text()).contains("see that the store of pictures answers");
      Files.move(away, apart());
      library.jobs().add(book);
      assertThat(worker.runOne()).isTrue();
      assertThat(library.pages().all(book).get(0).state()).isEqualTo(PageState.READ);
    }
  }

  @Test
  void aPictureThatIsNotThereFailsItsPageOnly() throws IOException {
    try (Library library = library()) {
      String book = book(library);
      Files.delete(apart().resolve(book).resolve(PICTURE));
      Worker worker = new Worker(library, new StandInReader(), new Events());
      assertThat(worker.runOne()).isTrue();
      assertThat(library.pages().all(book).get(0).state()).isEqualTo(PageState.FAILED);
      assertThat(library.jobs().latest(book).orElseThrow().state()).isEqualTo(Job.State.DONE);
    }
  }
}
