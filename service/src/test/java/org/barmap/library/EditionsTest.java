package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.zip.GZIPInputStream;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Editions;
import org.barmap.library.feed.Feed;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;

/** A checked map gets a number and never changes under it. */
class EditionsTest extends WithBook {

  private Editions editions() {
    return library.feed().editions();
  }

  private byte[] document(String book, int number) throws IOException {
    byte[] packed = editions().packed(book, number).orElseThrow();
    return new GZIPInputStream(new ByteArrayInputStream(packed)).readAllBytes();
  }

  private static String sha256(byte[] bytes) throws Exception {
    return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
  }

  private Editions.Making.Made made(String book) {
    Editions.Making making = editions().make(book, draft(book).revision(), "Cy");
    assertThat(making).isInstanceOf(Editions.Making.Made.class);
    return (Editions.Making.Made) making;
  }

  @Test
  void theLastPageCheckedMakesTheEdition() throws Exception {
    String book = readBook(7);
    int pages = draft(book).value().map().pages().size();
    for (int page = 1; page <= pages; page++) {
      assertThat(editions().all(book)).isEmpty();
      correct(book, "Ada", new PageCorrection.VerifyPage(page, true));
    }
    Edition edition = editions().latest(book).orElseThrow();
    assertThat(edition.number()).isEqualTo(1);
    assertThat(edition.who()).isEqualTo("Ada");
    assertThat(edition.madeAt()).isEqualTo(NOW);
    assertThat(edition.revision()).isEqualTo(draft(book).revision());
    byte[] document = document(book, 1);
    assertThat(edition.sha256()).isEqualTo(sha256(document));
    assertThat(edition.bytes()).isEqualTo(document.length);
    BarMap map = BarMapJson.read(new ByteArrayInputStream(document));
    assertThat(map.bars()).isEqualTo(draft(book).value().map().bars());
    assertThat(map.findings()).isEqualTo(draft(book).value().open());
  }

  @Test
  void anEditionStaysAsItWasWhateverHappensToTheBook() throws Exception {
    String book = readBook(6);
    checkAll(book);
    byte[] before = document(book, 1);
    Edition card = editions().find(book, 1).orElseThrow();
    setCount(book, 0, 7);
    done(library.drafts().undo(book, draft(book).revision()));
    done(library.drafts().redo(book, draft(book).revision()));
    done(library.books().rename(book, draft(book).revision(), "Other", "Other"));
    List<String> ids = new ArrayList<>();
    library.pages().all(book).forEach(p -> ids.add(p.id()));
    Collections.reverse(ids);
    done(library.pages().order(book, draft(book).revision(), ids));
    done(library.pages().remove(book, draft(book).revision(), ids.get(0)));
    library.books().discard(book);
    assertThat(editions().find(book, 1)).isEmpty();
    assertThat(editions().packed(book, 1)).isEmpty();
    library.books().restore(book);
    reopen();
    assertThat(document(book, 1)).isEqualTo(before);
    assertThat(editions().find(book, 1)).contains(card);
  }

  @Test
  void correctionsOfACheckedBookWaitUntilAnotherEditionIsMade() {
    String book = readBook(6);
    checkAll(book);
    setCount(book, 0, 7);
    setCount(book, 1, 5);
    assertThat(editions().all(book)).hasSize(1);
    assertThat(editions().correctionsSince(book)).contains(2);
    done(library.drafts().undo(book, draft(book).revision()));
    assertThat(editions().correctionsSince(book)).contains(1);
    Editions.Making.Made second = made(book);
    assertThat(second.fresh()).isTrue();
    assertThat(second.edition().number()).isEqualTo(2);
    assertThat(editions().correctionsSince(book)).contains(0);
    done(library.drafts().undo(book, draft(book).revision()));
    assertThat(editions().correctionsSince(book)).contains(1);
    assertThat(editions().all(book)).extracting(Edition::number).containsExactly(2, 1);
  }

  @Test
  void madeAgainWithoutAChangeItIsTheSameOne() throws IOException {
    String book = readBook(6);
    checkAll(book);
    assertThat(made(book).fresh()).isFalse();
    reopen();
    assertThat(made(book)).isEqualTo(new Editions.Making.Made(made(book).edition(), false));
    correct(book, "", new PageCorrection.VerifyPage(1, false));
    correct(book, "", new PageCorrection.VerifyPage(1, true));
    assertThat(editions().all(book)).hasSize(1);
    setCount(book, 0, 9);
    assertThat(made(book).edition().number()).isEqualTo(2);
    done(library.drafts().undo(book, draft(book).revision()));
    assertThat(made(book).edition().number()).as("as the first, but after the second").isEqualTo(3);
    assertThat(editions().find(book, 3).orElseThrow().sha256())
        .isEqualTo(editions().find(book, 1).orElseThrow().sha256());
  }

  @Test
  void ofABookThatIsNotCheckedNoneIsMade() {
    String book = readBook(6);
    assertThat(editions().make(book, draft(book).revision(), ""))
        .isInstanceOf(Editions.Making.Refused.class);
    checkAll(book);
    assertThat(editions().make(book, draft(book).revision() - 1, ""))
        .isEqualTo(new Editions.Making.Stale(draft(book).revision()));
    correct(book, "", new PageCorrection.VerifyPage(1, false));
    assertThat(editions().make(book, draft(book).revision(), ""))
        .isEqualTo(
            new Editions.Making.Refused(
                "An edition is made of a checked book, and 1 page is not checked yet"));
  }

  @Test
  void aPageThatIsNotReadKeepsTheBookFromBeingChecked() {
    String book = readBook(6);
    String more =
        library
            .pages()
            .add(
                book,
                List.of(new Pages.NewPage("x", "x", 10, 10, java.util.Optional.empty())),
                java.util.Optional.empty())
            .get(0)
            .id();
    checkAll(book);
    assertThat(editions().all(book)).isEmpty();
    done(library.pages().remove(book, draft(book).revision(), more));
    assertThat(editions().all(book)).hasSize(1);
  }

  @Test
  void ofTwoWhoPublishAtOnceBothGetTheSameOne() throws Exception {
    String book = readBook(6);
    checkAll(book);
    setCount(book, 0, 7);
    long revision = draft(book).revision();
    ExecutorService publishers = Executors.newFixedThreadPool(6);
    CountDownLatch together = new CountDownLatch(1);
    List<Future<Editions.Making>> making = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      making.add(
          publishers.submit(
              () -> {
                together.await();
                return editions().make(book, revision, "");
              }));
    }
    together.countDown();
    int fresh = 0;
    for (Future<Editions.Making> one : making) {
      Editions.Making.Made made = (Editions.Making.Made) one.get();
      assertThat(made.edition().number()).isEqualTo(2);
      fresh += made.fresh() ? 1 : 0;
    }
    publishers.shutdown();
    assertThat(fresh).isEqualTo(1);
    assertThat(editions().all(book)).hasSize(2);
  }

  @Test
  void whoListensIsToldOnceItIsThere() {
    List<Integer> told = new ArrayList<>();
    String book = readBook(6);
    Runnable stop =
        library
            .feed()
            .listen(
                new Feed.Listener() {
                  @Override
                  public void edition(String of, Edition edition) {
                    assertThat(editions().find(of, edition.number())).isPresent();
                    told.add(edition.number());
                  }

                  @Override
                  public void queued() {
                    throw new AssertionError("nobody registered a hook");
                  }
                });
    checkAll(book);
    stop.run();
    setCount(book, 0, 7);
    made(book);
    assertThat(told).containsExactly(1);
  }

  @Test
  void editionsGoWithTheirBook() {
    String book = readBook(6);
    checkAll(book);
    library.books().discard(book);
    library.books().removeForGood(book);
    String other = readBook(6);
    assertThat(editions().all(book)).isEmpty();
    assertThat(editions().all(other)).isEmpty();
    assertThat(editions().correctionsSince(book)).isEmpty();
  }
}
