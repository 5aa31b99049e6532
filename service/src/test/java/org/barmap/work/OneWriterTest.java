package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.Saved;
import org.barmap.library.SecondCard;
import org.barmap.library.Stores;
import org.barmap.map.BarMap;
import org.barmap.map.Page;
import org.barmap.map.rule.BarMapRules;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;

/** What happens to a book's pages while it is being settled is in the map afterwards. */
@ParameterizedClass
@EnumSource(Stores.class)
class OneWriterTest {

  @TempDir private Path folder;

  @Parameter private Stores store = Stores.SQLITE;
  private Library library;
  private StandInReader reader;
  private Worker worker;
  private String book;

  @BeforeEach
  void open() throws IOException {
    library = store.open(folder, Clock.systemUTC());
    reader = new StandInReader();
    worker = new Worker(library, reader, new Events());
    book = library.books().add("Saltmarsh", "Bass").id();
  }

  @AfterEach
  void close() {
    library.close();
  }

  private void add(String... names) throws IOException {
    List<Jobs.Upload> uploads = new ArrayList<>();
    for (String name : names) {
      Path file = library.pages().folder(book).resolve("u-" + name);
      BlankPage.into(file);
      uploads.add(new Jobs.Upload("id-" + name, name, file));
    }
    library.jobs().add(book, uploads);
  }

  private List<PageCard> pages() {
    return library.pages().all(book);
  }

  private long revision() {
    return library.drafts().find(book).orElseThrow().revision();
  }

  private BarMap map() {
    return library.drafts().find(book).orElseThrow().value().map();
  }

  private void reverse() {
    List<String> ids = new ArrayList<>(pages().stream().map(PageCard::id).toList());
    Collections.reverse(ids);
    assertThat(library.pages().order(book, revision(), ids)).isInstanceOf(Saved.Done.class);
  }

  /** The map holds what the pages are now, in their order. */
  private void mapIsOfThePages() {
    assertThat(map().pages()).extracting(Page::index).isSorted();
    assertThat(map().pages())
        .extracting(Page::source)
        .containsExactlyElementsOf(
            pages().stream()
                .filter(p -> p.state() == PageState.READ)
                .map(PageCard::source)
                .toList());
    assertThat(BarMapRules.check(map())).isEmpty();
  }

  @Test
  void pagesDraggedDuringTheLastSettlingAreInTheirNewOrder() throws IOException {
    add("one.png", "two.png");
    // one settling a page, and the last one
    reader.during(3, this::reverse);
    worker.runAll();
    assertThat(pages()).extracting(PageCard::source).containsExactly("two.png", "one.png");
    mapIsOfThePages();
  }

  @Test
  void aPageTakenOutDuringTheLastSettlingStaysOut() throws IOException {
    add("one.png", "two.png", "three.png");
    reader.during(
        4,
        () ->
            assertThat(library.pages().remove(book, revision(), pages().get(1).id()))
                .isInstanceOf(Saved.Done.class));
    worker.runAll();
    assertThat(pages()).extracting(PageCard::source).containsExactly("one.png", "three.png");
    mapIsOfThePages();
    assertThat(map().bars()).hasSize(12);
  }

  @Test
  void theLastPageTakenOutDuringTheSettlingLeavesNothing() throws IOException {
    add("one.png");
    reader.during(2, () -> library.pages().remove(book, revision(), pages().get(0).id()));
    worker.runAll();
    assertThat(map().bars()).isEmpty();
    assertThat(library.jobs().latest(book).orElseThrow().state()).isEqualTo(Job.State.DONE);
  }

  @Test
  void aPageReadAgainDuringTheSettlingIsInItAsItWasReadLast() throws IOException {
    add("one.png", "two.png");
    reader.during(
        3,
        () ->
            library
                .pages()
                .read(
                    pages().get(0).id(),
                    library.pages().reading(pages().get(0).id()).orElseThrow(),
                    Optional.empty()));
    int before = reader.settlings();
    worker.runAll();
    assertThat(reader.settlings() - before)
        .as("two pages, the last one, that one again")
        .isEqualTo(4);
    mapIsOfThePages();
  }

  @Test
  void aPageAddedDuringTheSettlingMovesNoOther() throws IOException {
    add("one.png", "three.png");
    reader.during(3, () -> library.pages().addPart(book, pages().get(0).id(), 2));
    worker.runAll();
    assertThat(map().pages()).extracting(Page::index).containsExactly(1, 3);
    assertThat(map().pages()).extracting(Page::source).containsExactly("one.png", "three.png");
  }

  @Test
  void aSecondReadingTakenAwayDuringTheSettlingIsNotWeighedAnyMore() throws IOException {
    add("one.png");
    SecondCard card = new SecondCard("score.musicxml", "gone.score", "", List.of());
    worker.runAll();
    assertThat(worker.settling().second(book, revision(), Optional.of(card)))
        .isInstanceOf(Saved.Done.class);
    int before = reader.settlings();
    reader.during(
        1,
        () ->
            assertThat(worker.settling().second(book, revision(), Optional.empty()))
                .isInstanceOf(Saved.Done.class));
    assertThat(worker.settling().settle(book)).isTrue();
    assertThat(reader.settlings() - before).as("with it, without it, again").isEqualTo(3);
    assertThat(library.seconds().find(book)).isEmpty();
  }

  @Test
  void twoThatSettleTheSameBookDoNotOvertakeEachOther() throws IOException {
    add("one.png", "two.png");
    worker.runAll();
    Worker other = new Worker(library, new StandInReader(), new Events());
    reader.during(
        1,
        () -> {
          reverse();
          assertThat(other.settling().settle(book)).isTrue();
        });
    assertThat(worker.settling().settle(book)).isTrue();
    mapIsOfThePages();
  }

  @Test
  void aBookDraggedWithoutEndIsSettledByALaterJob() throws IOException {
    add("one.png", "two.png");
    for (int i = 3; i < 50; i++) {
      reader.during(i, this::reverse);
    }
    String first = library.jobs().next(book).orElseThrow().id();
    while (library.jobs().next(book).orElseThrow().id().equals(first)) {
      worker.runOne();
    }
    for (int i = 1; i < 50; i++) {
      reader.during(i, () -> {});
    }
    worker.runAll();
    assertThat(worker.runOne()).isFalse();
    mapIsOfThePages();
  }

  @Test
  void aKillBetweenReadingAndSettlingIsSettledAfterARestart() throws IOException {
    add("one.png", "two.png");
    reader.during(
        3,
        () -> {
          reverse();
          throw new ThreadDeath();
        });
    assertThatThrownBy(() -> worker.runAll()).isInstanceOf(ThreadDeath.class);
    close();
    library = store.open(folder, Clock.systemUTC());
    worker = new Worker(library, new StandInReader(), new Events());
    worker.runAll();
    mapIsOfThePages();
  }

  @Test
  void ofAPageTakenOutTwiceTheSecondTimeIsSaidSo() throws IOException {
    add("one.png", "two.png");
    worker.runAll();
    String page = pages().get(0).id();
    assertThat(library.pages().remove(book, revision(), page)).isInstanceOf(Saved.Done.class);
    assertThat(library.pages().remove(book, revision(), page)).isInstanceOf(Saved.Refused.class);
    assertThat(library.pages().remove(book, 0, pages().get(0).id()))
        .isInstanceOf(Saved.Stale.class);
  }

  @Test
  void theRightHandPageOfAnOpeningIsReadAgain() throws IOException {
    add("opening.png", "three.png");
    worker.runAll();
    assertThat(pages()).extracting(PageCard::part).containsExactly(1, 2, 1);
    int before = reader.seen().size();
    assertThat(library.pages().again(book, revision(), pages().get(1).id()))
        .isInstanceOf(Saved.Done.class);
    worker.runAll();
    assertThat(pages()).extracting(PageCard::state).containsOnly(PageState.READ);
    assertThat(pages()).hasSize(3);
    assertThat(reader.seen().size() - before).as("the picture is read once").isEqualTo(1);
    assertThat(map().bars()).hasSize(18);
  }

  @Test
  void theRightHandPageIsReadAgainWhenTheLeftOneWasTakenOut() throws IOException {
    add("opening.png");
    worker.runAll();
    library.pages().remove(book, revision(), pages().get(0).id());
    library.pages().again(book, revision(), pages().get(0).id());
    worker.runAll();
    assertThat(pages()).extracting(PageCard::part).containsExactly(2);
    assertThat(pages()).extracting(PageCard::state).containsExactly(PageState.READ);
    assertThat(map().bars()).hasSize(6);
  }
}
