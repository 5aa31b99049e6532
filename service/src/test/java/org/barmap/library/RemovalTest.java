package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.lang.ref.WeakReference;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;

/** What a person removes is gone from the disk: files by name, the store byte by byte. */
class RemovalTest extends OnEachStore {

  /** Stands in everything that is kept of the book to be removed, and nowhere else. */
  private static final String MARK = "kelpmarker";

  /** A book with everything a book can have, the word in every text of it. */
  private String fullBook(String word) throws IOException {
    String book = library.books().add(word, "Bass").id();
    BarMap map = Made.book(3);
    for (int i = 1; i <= map.pages().size(); i++) {
      PageCard page = page(book, word + i + ".png", word);
      // long enough to spill over many pages of the store
      library.pages().read(page.id(), ("{\"" + word + "\":1}").repeat(4000), Optional.of(word));
    }
    lay(book, map);
    Versioned<Draft> draft = library.drafts().find(book).orElseThrow();
    String bar = draft.value().map().bars().get(0).id();
    long revision = draft.revision();
    library.drafts().correct(book, revision, word, new BarCorrection.SetCount(bar, 7));
    library
        .changes()
        .add(
            book,
            0,
            word,
            BarMapJson.mapper()
                .createObjectNode()
                .put("number", "7")
                .put("kind", "cut")
                .put("first", word)
                .put("last", "49"));
    library.changes().undo(book, 1);
    library.changes().redo(book, 2);
    Path score = Files.writeString(library.pages().folder(book).resolve("s.score"), word);
    SecondCard second = new SecondCard(word, String.valueOf(score.getFileName()), "", List.of());
    Material from = library.readings().material(book);
    assertThat(
            library
                .readings()
                .laySecond(book, revision + 1, from, Optional.of(second), Optional.empty()))
        .isInstanceOf(Saved.Done.class);
    Path upload = Files.writeString(library.pages().folder(book).resolve("u.pdf"), word);
    library.jobs().add(book, List.of(new Jobs.Upload("up" + book, word + ".pdf", upload)));
    return book;
  }

  /** A shelf of ten thousand books that came and went must not fill the memory. */
  @Test
  void nothingOfARemovedBookIsHeldInMemory() throws IOException {
    String book = fullBook("held");
    WeakReference<Draft> held =
        new WeakReference<>(library.drafts().find(book).orElseThrow().value());
    library.books().discard(book);
    assertThat(library.books().removeForGood(book)).isTrue();
    await()
        .untilAsserted(
            () -> {
              System.gc();
              assertThat(held.get()).isNull();
            });
  }

  private void lay(String book, BarMap map) {
    Material from = library.readings().material(book);
    assertThat(library.readings().lay(book, from, map)).isInstanceOf(Saved.Done.class);
  }

  private PageCard page(String book, String picture, String bytes) throws IOException {
    Files.writeString(library.pages().folder(book).resolve(picture), bytes);
    PageCard page =
        library
            .pages()
            .add(
                book,
                List.of(new Pages.NewPage(picture, picture, 10, 10, Optional.empty())),
                Optional.empty())
            .get(0);
    scaled(page, bytes);
    return page;
  }

  private void remove(String book, PageCard page) {
    long revision = library.drafts().find(book).orElseThrow().revision();
    assertThat(library.pages().remove(book, revision, page.id())).isInstanceOf(Saved.Done.class);
  }

  private Path scaled(PageCard page, String bytes) throws IOException {
    return Files.writeString(library.pages().cache().resolve(page.id() + "-300.jpg"), bytes);
  }

  @Test
  void aRemovedPageIsGoneFromTheDiskAtOnce() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    PageCard gone = page(book, "gone.png", MARK);
    PageCard stays = page(book, "stays.png", "driftwood");
    library.pages().read(gone.id(), MARK.repeat(4000), Optional.of(MARK));
    library.pages().read(stays.id(), "driftwood".repeat(4000), Optional.empty());
    lay(book, Made.book(6));
    assertThat(Disk.holding(folder, MARK)).as("it was there").isNotEmpty();
    assertThat(rowsWith(MARK))
        .hasSameSizeAs(store() == Stores.POSTGRES ? List.of("page") : List.of());
    remove(book, gone);
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(Disk.holding(folder, gone.id())).isEmpty();
    assertThat(Disk.holding(folder, "driftwood"))
        .contains("books/" + book + "/stays.png", "cache/" + stays.id() + "-300.jpg");
    assertThat(library.pages().reading(stays.id())).isPresent();
  }

  @Test
  void aPictureGoesWithTheLastOfThePagesOnIt() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    PageCard left = page(book, "opening.png", MARK);
    PageCard right = library.pages().addPart(book, left.id(), 2).orElseThrow();
    scaled(right, MARK);
    remove(book, left);
    assertThat(Disk.holding(folder, MARK))
        .containsExactlyInAnyOrder(
            "books/" + book + "/opening.png", "cache/" + right.id() + "-300.jpg");
    remove(book, right);
    assertThat(Disk.holding(folder, MARK)).isEmpty();
  }

  @Test
  void aBookStaysInTheBinUntilAPersonRemovesItOrSetsATime() throws IOException {
    String book = fullBook(MARK);
    library.books().discard(book);
    assertThat(library.books().bin().get(0).goneAt()).isEmpty();
    clock.pass(Duration.ofDays(4000));
    library.sweepDaily();
    reopen();
    assertThat(library.books().bin()).hasSize(1);
    List<String> pages = pagesInBin(book);
    library.keeping().setBinDays(Optional.of(30));
    assertThat(library.books().bin().get(0).goneAt()).contains(NOW.plus(Duration.ofDays(30)));
    clock.pass(Duration.ofDays(1));
    library.sweepDaily();
    assertNothingLeft(book, pages);
  }

  private List<String> pagesInBin(String book) {
    library.books().restore(book);
    List<String> pages = library.pages().all(book).stream().map(PageCard::id).toList();
    clock.pass(Duration.ofDays(-4000));
    library.books().discard(book);
    clock.pass(Duration.ofDays(4000));
    return pages;
  }

  @Test
  void theWholeBinIsEmptiedAndTheStoreBecomesSmaller() throws IOException {
    String stays = fullBook("driftwood");
    List<String> books = List.of(fullBook(MARK), fullBook(MARK), fullBook(MARK));
    for (String book : books) {
      List<String> pages = library.pages().all(book).stream().map(PageCard::id).toList();
      for (String page : pages) {
        library.pages().read(page, MARK.repeat(100_000), Optional.empty());
      }
    }
    reopen();
    Path file = folder.resolve("barmap.db");
    long before = store() == Stores.SQLITE ? Files.size(file) : 0;
    books.forEach(library.books()::discard);
    assertThat(library.keeping().emptyBin()).isEqualTo(3);
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(rowsWith(MARK)).isEmpty();
    if (store() == Stores.SQLITE) {
      assertThat(Files.size(file)).isLessThan(before / 4);
    }
    assertThat(library.pages().all(stays)).isNotEmpty();
  }

  @Test
  void whatAKillKeptOnTheDiskOfARemovedBookGoesAtTheNextStart() throws IOException {
    String book = fullBook(MARK);
    String other = fullBook("driftwood");
    Path kept = library.pages().folder(book);
    Path copy = Files.createDirectory(folder.resolve("copy"));
    List<String> files;
    try (var all = Files.list(kept)) {
      files = all.map(f -> f.getFileName().toString()).toList();
    }
    for (String file : files) {
      Files.copy(kept.resolve(file), copy.resolve(file));
    }
    // as if it had been ended between the store and the disk
    Path first = kept.resolve(files.get(0));
    Files.delete(first);
    Files.createDirectory(first);
    Path inside = Files.writeString(first.resolve("inside"), MARK);
    library.books().discard(book);
    assertThat(library.books().removeForGood(book)).isTrue();
    assertThat(inside).exists();
    close();
    Files.delete(inside);
    Files.delete(first);
    Files.copy(copy.resolve(files.get(0)), first);
    for (String file : files) {
      Files.delete(copy.resolve(file));
    }
    Files.delete(copy);
    open();
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(kept).doesNotExist();
    assertThat(library.pages().all(other)).isNotEmpty();
  }

  @Test
  void aBookIsKeptInTheBinForThirtyDaysAndThenLeavesNothing() throws IOException {
    library.keeping().setBinDays(Optional.of(30));
    String other = fullBook("driftwood");
    String book = fullBook(MARK);
    List<String> pages = library.pages().all(book).stream().map(PageCard::id).toList();
    library.books().discard(book);
    BinCard card = library.books().bin().get(0);
    assertThat(card.id()).isEqualTo(book);
    assertThat(card.title()).isEqualTo(MARK);
    assertThat(card.pages()).isEqualTo(pages.size());
    assertThat(card.goneAt()).contains(clock.instant().plus(Duration.ofDays(30)));
    clock.pass(Duration.ofDays(30).minusSeconds(1));
    library.sweepDaily();
    reopen();
    assertThat(library.books().restore(book)).as("still to be had").isTrue();
    library.books().discard(book);
    clock.pass(Duration.ofDays(30));
    library.sweepDaily();
    assertNothingLeft(book, pages);
    assertThat(library.books().restore(book)).isFalse();
    assertThat(library.books().bin()).isEmpty();
    reopen();
    assertNothingLeft(book, pages);
    assertThat(library.pages().all(other)).isNotEmpty();
    assertThat(library.pages().folder(other).resolve("driftwood1.png")).exists();
  }

  @Test
  void aStartRemovesWhatIsDueToo() throws IOException {
    library.keeping().setBinDays(Optional.of(30));
    String book = fullBook(MARK);
    List<String> pages = library.pages().all(book).stream().map(PageCard::id).toList();
    library.books().discard(book);
    library.close();
    clock.pass(Duration.ofDays(31));
    open();
    assertNothingLeft(book, pages);
  }

  @Test
  void onlyABookInTheBinIsRemovedForGoodAtOnce() throws IOException {
    String book = fullBook(MARK);
    List<String> pages = library.pages().all(book).stream().map(PageCard::id).toList();
    assertThat(library.books().removeForGood(book)).isFalse();
    assertThat(library.pages().all(book)).hasSameSizeAs(pages);
    library.books().discard(book);
    assertThat(library.books().removeForGood(book)).isTrue();
    assertNothingLeft(book, pages);
    assertThat(library.books().removeForGood(book)).isFalse();
  }

  private void assertNothingLeft(String book, List<String> pages) throws IOException {
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(Disk.holding(folder, book)).isEmpty();
    for (String page : pages) {
      assertThat(Disk.holding(folder, page)).isEmpty();
    }
    assertThat(rowsWith(MARK)).isEmpty();
    assertThat(rowsWith(book)).isEmpty();
  }

  /** Returns the tables with a row in which a word stands; a database elsewhere is no file here. */
  private List<String> rowsWith(String word) {
    List<String> found = new ArrayList<>();
    if (store() == Stores.POSTGRES) {
      try (Connection connection = store().connect(folder);
          Statement ask = connection.createStatement()) {
        List<String> tables = new ArrayList<>();
        try (ResultSet rows =
            ask.executeQuery("select tablename from pg_tables where schemaname = 'public'")) {
          while (rows.next()) {
            tables.add(rows.getString(1));
          }
        }
        assertThat(tables).contains("book", "page", "draft_page");
        for (String table : tables) {
          String query = "select 1 from %s t where t::text like '%%%s%%'".formatted(table, word);
          try (ResultSet rows = ask.executeQuery(query)) {
            if (rows.next()) {
              found.add(table);
            }
          }
        }
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }
    return found;
  }

  @Test
  void whatWasMadeForAMomentIsSweptAtTheStart() throws IOException {
    fullBook("driftwood");
    int before = Disk.holding(folder, "driftwood").size();
    Files.writeString(library.pages().cache().resolve("nobody22-300.jpg"), MARK);
    // the server's own file for an upload that a kill broke off
    Files.writeString(library.pages().cache().resolve("MultiPart123"), MARK);
    for (String passing : List.of("pack17.zip", "open17.tmp", "list17.tmp")) {
      Files.writeString(library.pages().cache().resolve(passing), MARK);
    }
    reopen();
    assertThat(Disk.holding(folder, MARK)).isEmpty();
    assertThat(Disk.holding(folder, "driftwood")).hasSize(before);
  }

  @Test
  void aFileThatCannotBeDeletedIsTriedAgain() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    PageCard page = page(book, "gone.png", MARK);
    // a folder that is not empty can't be deleted as a file, whoever tries
    Path file = library.pages().folder(book).resolve("gone.png");
    Files.delete(file);
    Files.createDirectory(file);
    Path inside = Files.writeString(file.resolve("inside"), MARK);
    remove(book, page);
    assertThat(inside).exists();
    Files.delete(inside);
    clock.pass(Duration.ofDays(1));
    library.sweepDaily();
    assertThat(file).doesNotExist();
  }
}
