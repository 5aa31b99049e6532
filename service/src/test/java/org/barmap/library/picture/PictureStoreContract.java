package org.barmap.library.picture;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.barmap.library.Jobs;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What holds wherever pictures are kept. */
abstract class PictureStoreContract {

  static final String BOOK = "abcdefghjk";
  static final String ONE = "u0123456789abcdef0123456789abcdef.png";
  private static final String OTHER = "u00000000000000000000000000000000.png";

  @TempDir Path root;

  /** Opens the store; what is in it stays. */
  abstract PictureStore open() throws IOException;

  /** Returns the names of all that is kept for good, as whoever runs the store sees them. */
  abstract Set<String> seen() throws IOException;

  /** Takes away what a machine has that is only a copy. */
  abstract void forgetCopies() throws IOException;

  Path file(String book, String name, String text) throws IOException {
    Path folder = Files.createDirectories(root.resolve("books").resolve(book));
    return Files.writeString(folder.resolve(name), text);
  }

  @Test
  void whatIsKeptIsBroughtBackAndWhatIsRemovedIsGone() throws IOException {
    try (PictureStore store = open()) {
      store.keep(BOOK, file(BOOK, ONE, "one"));
      store.keep(BOOK, file(BOOK, OTHER, "other"));
      assertThat(store.sizes()).containsEntry(BOOK + "/" + ONE, 3L).hasSize(2);
      forgetCopies();
      assertThat(store.bring(BOOK, ONE)).hasContent("one");
      store.remove(BOOK, ONE);
      assertThat(seen()).containsExactly(BOOK + "/" + OTHER);
      assertThat(root.resolve("books").resolve(BOOK).resolve(ONE)).doesNotExist();
      store.remove(BOOK, ONE); // nothing is there any more
      assertThat(store.isReady()).isTrue();
    }
  }

  @Test
  void whatIsNotThereCannotBeKept() throws IOException {
    try (PictureStore store = open()) {
      Path none = root.resolve("books").resolve(BOOK).resolve(ONE);
      assertThatThrownBy(() -> store.keep(BOOK, none)).isInstanceOf(NoSuchFileException.class);
      assertThat(seen()).isEmpty();
    }
  }

  /** A library with its pictures there: read from a copy made anew, and gone with page and book. */
  @Test
  void aLibraryKeepsItsPicturesThere() throws IOException {
    try (SqliteLibrary library = SqliteLibrary.open(root, open(), Clock.systemUTC())) {
      String book = library.books().add("Saltmarsh", "Bass").id();
      Path upload = file(book, ONE, "an upload");
      Jobs.Upload waiting = new Jobs.Upload("u1", "p.pdf", upload);
      String job = library.jobs().add(book, List.of(waiting)).id();
      assertThat(seen()).containsExactly(book + "/" + ONE);
      forgetCopies();
      Jobs.Upload again = library.jobs().uploads(job).get(0);
      assertThat(library.pages().kept(book, again.file().getFileName().toString()))
          .hasContent("an upload");
      String picture = ONE + "-1.png";
      file(book, picture, "a page");
      Pages.NewPage page = new Pages.NewPage("p.pdf", picture, 10, 10, Optional.empty());
      List<PageCard> added = library.pages().add(book, List.of(page), Optional.of("u1"));
      library.pages().drop(book, ONE);
      assertThat(seen()).containsExactly(book + "/" + picture);
      forgetCopies();
      assertThat(library.pages().picture(book, added.get(0))).hasContent("a page");
      assertThat(library.keeping().kept().missing()).isEmpty();
      assertThat(library.keeping().kept().pictures().bytes()).isEqualTo(6);
      long revision = library.drafts().find(book).orElseThrow().revision();
      library.pages().remove(book, revision, added.get(0).id());
      assertThat(seen()).isEmpty();
    }
  }

  @Test
  void aBookRemovedForGoodLeavesNothing() throws IOException {
    try (SqliteLibrary library = SqliteLibrary.open(root, open(), Clock.systemUTC())) {
      String book = library.books().add("Saltmarsh", "Bass").id();
      file(book, ONE, "a page");
      Pages.NewPage page = new Pages.NewPage("p.png", ONE, 10, 10, Optional.empty());
      library.pages().add(book, List.of(page), Optional.empty());
      library.pages().keep(book, file(book, OTHER, "named by nothing"));
      assertThat(seen()).hasSize(2);
      library.books().discard(book);
      library.books().removeForGood(book);
      assertThat(seen()).isEmpty();
      assertThat(root.resolve("books").resolve(book)).doesNotExist();
    }
  }

  @Test
  void aPictureThatWentMissingIsNamedAtTheStart() throws IOException {
    String book;
    try (SqliteLibrary library = SqliteLibrary.open(root, open(), Clock.systemUTC())) {
      book = library.books().add("Saltmarsh", "Bass").id();
      file(book, ONE, "a page");
      Pages.NewPage page = new Pages.NewPage("p.png", ONE, 10, 10, Optional.empty());
      library.pages().add(book, List.of(page), Optional.empty());
    }
    try (PictureStore store = open()) {
      store.remove(book, ONE);
    }
    try (SqliteLibrary library = SqliteLibrary.open(root, open(), Clock.systemUTC())) {
      assertThat(library.keeping().notices())
          .anyMatch(n -> n.contains("page 1 of Saltmarsh, Bass"));
    }
  }
}
