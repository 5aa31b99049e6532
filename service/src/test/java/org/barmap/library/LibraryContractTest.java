package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.barmap.edit.Made;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** What every library does; run against both real stores. */
class LibraryContractTest extends WithBook {

  private long revision(String book) {
    return library.drafts().find(book).orElseThrow().revision();
  }

  @Test
  void aBookIsThereAfterARestart() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    done(library.books().rename(book, revision(book), "Saltmarsh", "Double Bass"));
    ChairSettings chair =
        new ChairSettings(
            Optional.of("double bass"),
            List.of("double bass", "electric bass"),
            Optional.of(1.5),
            Optional.empty(),
            Optional.empty(),
            Optional.of(20.0),
            Optional.of(3.0));
    Settings set =
        new Settings(
            3,
            1,
            2,
            8,
            true,
            chair,
            Optional.empty(),
            Optional.of("left"),
            Map.of("p", "loose"),
            Optional.empty(),
            Optional.empty());
    assertThat(library.books().setSettings(book, 0, set)).isTrue();
    assertThat(library.books().setSettings(book, 0, Settings.USUAL)).isFalse();
    reopen();
    BookCard card = library.books().find(book).orElseThrow();
    assertThat(card.part()).isEqualTo("Double Bass");
    assertThat(card.createdAt()).isEqualTo(NOW);
    assertThat(library.books().settings(book)).isEqualTo(set);
    Draft draft = library.drafts().find(book).orElseThrow().value();
    assertThat(draft.map().book().part()).isEqualTo("Double Bass");
  }

  @Test
  void aBookGoesToTheBinAndComesBackWhole() {
    String book = readBook(Made.book(1));
    Draft before = library.drafts().find(book).orElseThrow().value();
    assertThat(library.books().discard(book)).isTrue();
    assertThat(library.books().all()).isEmpty();
    assertThat(library.books().find(book)).isEmpty();
    assertThat(library.drafts().find(book)).isEmpty();
    assertThat(library.books().discard(book)).isFalse();
    assertThat(library.books().restore(book)).isTrue();
    assertThat(library.drafts().find(book).orElseThrow().value()).isEqualTo(before);
  }

  @Test
  void correctionsAreKeptWithWhoAndWhenAndCanBeTakenBackAfterARestart() throws IOException {
    String book = readBook(Made.book(2));
    Versioned<Draft> start = library.drafts().find(book).orElseThrow();
    String bar = start.value().map().bars().get(1).id();
    Saved.Done<Draft> one =
        done(
            library
                .drafts()
                .correct(book, start.revision(), "Ada", new BarCorrection.SetCount(bar, 7)));
    assertThat(one.entry().who()).isEqualTo("Ada");
    assertThat(one.entry().when()).isEqualTo(NOW);
    reopen();
    assertThat(library.drafts().find(book).orElseThrow()).isEqualTo(one.now());
    Saved.Done<Draft> undone = done(library.drafts().undo(book, one.now().revision()));
    assertThat(undone.now().value()).isEqualTo(start.value());
    assertThat(library.drafts().history(book).redo()).isEqualTo(1);
    Saved.Done<Draft> redone = done(library.drafts().redo(book, undone.now().revision()));
    assertThat(redone.now().value()).isEqualTo(one.now().value());
    assertThat(library.drafts().history(book).entries()).hasSize(1);
    assertThat(library.drafts().undo(book, 0)).isInstanceOf(Saved.Stale.class);
  }

  @Test
  void somethingNewAfterUndoLeavesTheUndoneInTheHistory() {
    String book = readBook(Made.book(2));
    Versioned<Draft> now = library.drafts().find(book).orElseThrow();
    String bar = now.value().map().bars().get(0).id();
    now = done(library.drafts().correct(book, now.revision(), "", set(bar, 5))).now();
    now = done(library.drafts().undo(book, now.revision())).now();
    now = done(library.drafts().correct(book, now.revision(), "", set(bar, 6))).now();
    assertThat(library.drafts().redo(book, now.revision())).isInstanceOf(Saved.Refused.class);
    History history = library.drafts().history(book);
    assertThat(history.entries()).extracting(HistoryEntry::undone).containsExactly(false, true);
  }

  private static BarCorrection set(String bar, int count) {
    return new BarCorrection.SetCount(bar, count);
  }

  @Test
  void ofTwoEditorsAtOnceOneIsTold() throws Exception {
    String book = readBook(Made.book(3));
    long revision = library.drafts().find(book).orElseThrow().revision();
    String bar = library.drafts().find(book).orElseThrow().value().map().bars().get(0).id();
    ExecutorService editors = Executors.newFixedThreadPool(8);
    CountDownLatch together = new CountDownLatch(1);
    List<Future<Saved<Draft>>> saved = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      int count = 2 + i;
      saved.add(
          editors.submit(
              () -> {
                together.await();
                return library.drafts().correct(book, revision, "", set(bar, count));
              }));
    }
    together.countDown();
    int made = 0;
    for (Future<Saved<Draft>> s : saved) {
      Saved<Draft> outcome = s.get();
      if (outcome instanceof Saved.Done) {
        made++;
      } else {
        assertThat(outcome).isEqualTo(new Saved.Stale<>(revision + 1));
      }
    }
    editors.shutdown();
    assertThat(made).isEqualTo(1);
    assertThat(library.drafts().history(book).entries()).hasSize(1);
  }

  @Test
  void aReadingOfOtherPagesLeavesCorrectionsAndTheirUndo() {
    BarMap map = Made.book(4);
    String book = readBook(map);
    Versioned<Draft> now = library.drafts().find(book).orElseThrow();
    String bar = now.value().map().bars().get(0).id();
    done(library.drafts().correct(book, now.revision(), "", set(bar, 9)));
    lay(book, map);
    Versioned<Draft> read = library.drafts().find(book).orElseThrow();
    assertThat(read.value().map().bar(bar).orElseThrow().count()).isEqualTo(9);
    Saved.Done<Draft> undone = done(library.drafts().undo(book, read.revision()));
    assertThat(undone.now().value().map().bars()).isEqualTo(map.bars());
  }

  @Test
  void pagesAreOrderedAndTakenOut() {
    BarMap map = Made.book(6);
    String book = readBook(map);
    List<PageCard> pages = library.pages().all(book);
    List<String> ids = new ArrayList<>(pages.stream().map(PageCard::id).toList());
    java.util.Collections.reverse(ids);
    long revision = done(library.pages().order(book, revision(book), ids)).now().revision();
    assertThat(library.pages().all(book)).extracting(PageCard::id).isEqualTo(ids);
    assertThat(library.pages().order(book, revision, List.of("x")))
        .isInstanceOf(Saved.Refused.class);
    done(library.pages().remove(book, revision, ids.get(0)));
    assertThat(library.pages().all(book)).hasSize(pages.size() - 1);
    BarMap left = library.drafts().find(book).orElseThrow().value().map();
    assertThat(left.pages()).hasSize(pages.size() - 1);
    assertThat(org.barmap.map.rule.BarMapRules.check(left)).isEmpty();
  }

  @Test
  void showChangesHaveTheirOwnHistory() {
    String book = library.books().add("Saltmarsh", "Bass").id();
    ObjectNode cut = BarMapJson.mapper().createObjectNode();
    cut.put("number", "7").put("kind", "cut").put("first", "34").put("last", "49");
    Saved.Done<List<ObjectNode>> added = done(library.changes().add(book, 0, "Ada", cut));
    ObjectNode made = added.now().value().get(0);
    assertThat(made.path("who").asString()).isEqualTo("Ada");
    assertThat(made.path("when").asString()).isEqualTo(NOW.toString());
    String id = made.path("id").asString();
    ObjectNode off = BarMapJson.mapper().createObjectNode().put("on", false);
    Saved.Done<List<ObjectNode>> patched = done(library.changes().patch(book, 1, "", id, off));
    assertThat(patched.now().value().get(0).path("on").asBoolean()).isFalse();
    assertThat(library.changes().add(book, 1, "", cut)).isInstanceOf(Saved.Stale.class);
    Saved.Done<List<ObjectNode>> removed = done(library.changes().remove(book, 2, "", id));
    assertThat(removed.now().value()).isEmpty();
    Saved.Done<List<ObjectNode>> back = done(library.changes().undo(book, 3));
    assertThat(back.now().value()).isEqualTo(patched.now().value());
    assertThat(library.changes().history(book).entries()).hasSize(3);
  }

  @Test
  void filesAreWholeOrNotThere() throws IOException {
    Path file = library.pages().folder("abc").resolve("page.png");
    InputStream broken =
        new InputStream() {
          private int left = 100_000;

          @Override
          public int read() throws IOException {
            if (left-- <= 0) {
              throw new IOException("No space left on device");
            }
            return 1;
          }
        };
    assertThatThrownBy(() -> WholeFile.copy(broken, file)).hasMessageContaining("No space");
    assertThat(file).doesNotExist();
    try (Stream<Path> left = Files.list(library.pages().folder("abc"))) {
      assertThat(left).isEmpty();
    }
    WholeFile.copy(new ByteArrayInputStream(new byte[] {1, 2, 3}), file);
    assertThat(file).hasBinaryContent(new byte[] {1, 2, 3});
  }

  @Test
  void whatAKillLeftBehindIsSweptAndNothingElse() throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    Path own = library.pages().folder(book).resolve("own.png");
    Path part = library.pages().folder(book).resolve(".barmap123.part");
    Path waiting = library.pages().folder(book).resolve("waiting.pdf");
    for (Path file : List.of(own, part, waiting)) {
      Files.write(file, new byte[] {1});
    }
    library
        .pages()
        .add(
            book,
            List.of(new Pages.NewPage("own.png", "own.png", 10, 10, Optional.empty())),
            Optional.empty());
    library.jobs().add(book, List.of(new Jobs.Upload("u1", "waiting.pdf", waiting)));
    reopen();
    assertThat(own).exists();
    assertThat(waiting).exists();
    assertThat(part).doesNotExist();
  }

  @Test
  void verifiedPagesAreCountedOnTheShelf() {
    BarMap map = Made.book(7);
    String book = readBook(map);
    long revision = library.drafts().find(book).orElseThrow().revision();
    for (int page = 1; page <= map.pages().size(); page++) {
      assertThat(library.books().find(book).orElseThrow().isVerified()).isFalse();
      revision =
          done(library
                  .drafts()
                  .correct(book, revision, "", new PageCorrection.VerifyPage(page, true)))
              .now()
              .revision();
    }
    assertThat(library.books().find(book).orElseThrow().isVerified()).isTrue();
    assertThat(library.books().find(book).orElseThrow().bars()).isEqualTo(map.writtenBars());
  }

  @Test
  void aFolderThatIsAFileIsRefusedInPlainWords() throws IOException {
    Path file = folder.resolve("file");
    Files.writeString(file, "x");
    assertThatThrownBy(() -> store().open(file, clock))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("can't be used");
  }
}
