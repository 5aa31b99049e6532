package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.common.PDStream;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.Versioned;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.sign.ReadPage;
import org.barmap.sign.StoredPage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The queue, cranked by hand. */
class WorkerTest {

  @TempDir private Path folder;

  private SqliteLibrary library;
  private StandInReader reader;
  private Worker worker;
  private String book;
  private final Events events = new Events();

  @BeforeEach
  void open() throws IOException {
    library = SqliteLibrary.open(folder, Clock.systemUTC());
    reader = new StandInReader();
    worker = new Worker(library, reader, events);
    book = library.books().add("Saltmarsh", "Bass").id();
  }

  @AfterEach
  void close() {
    library.close();
  }

  private void reopen() throws IOException {
    library.close();
    library = SqliteLibrary.open(folder, Clock.systemUTC());
    reader = new StandInReader();
    worker = new Worker(library, reader, events);
  }

  private Jobs.Upload picture(String name) throws IOException {
    Path file = library.pages().folder(book).resolve("u-" + name);
    BlankPage.into(file);
    return new Jobs.Upload("id-" + name, name, file);
  }

  private List<PageState> states() {
    return library.pages().all(book).stream().map(PageCard::state).toList();
  }

  @Test
  void pagesAreReadOneAfterAnotherAndFailedOnesDoNotStopTheOthers() throws IOException {
    Path text = library.pages().folder(book).resolve("u-text.png");
    Files.writeString(text, "no picture");
    library
        .jobs()
        .add(
            book,
            List.of(
                picture("one.png"),
                new Jobs.Upload("t", "text.png", text),
                picture("broken.png"),
                picture("defect.png"),
                picture("two.png")));
    List<String> told = new ArrayList<>();
    events.listen(book, (name, data) -> told.add(name));
    worker.runAll();
    assertThat(states())
        .containsExactly(
            PageState.READ, PageState.FAILED, PageState.FAILED, PageState.FAILED, PageState.READ);
    List<PageCard> pages = library.pages().all(book);
    assertThat(pages.get(1).finding().orElse("")).contains("text.png").contains("no PNG");
    assertThat(pages.get(2).finding().orElse("")).contains("damaged");
    assertThat(pages.get(3).finding().orElse("")).contains("photograph or scan it again");
    assertThat(text).doesNotExist();
    Draft draft = library.drafts().find(book).orElseThrow().value();
    assertThat(draft.map().pages()).extracting(p -> p.index()).containsExactly(1, 5);
    assertThat(draft.map().bars()).hasSize(12);
    Job job = library.jobs().latest(book).orElseThrow();
    assertThat(job.state()).isEqualTo(Job.State.DONE);
    assertThat(job.text()).isEqualTo("Read 5 pages, 3 can't be read");
    assertThat(told).contains("job", "page", "map");
    assertThat(worker.runOne()).isFalse();
  }

  /** What can't be read within its limits is not decoded for smaller pictures before. */
  @Test
  void aPageIsMadeSmallerWhenItWasRead() throws IOException {
    library
        .jobs()
        .add(book, List.of(picture("one.png"), picture("broken.png"), picture("deep.png")));
    worker.runAll();
    assertThat(states()).containsExactly(PageState.READ, PageState.FAILED, PageState.FAILED);
    String read = library.pages().all(book).get(0).id();
    try (Stream<Path> copies = Files.list(library.pages().cache())) {
      assertThat(copies.map(c -> String.valueOf(c.getFileName())))
          .containsExactly(read + "-400.jpg");
    }
  }

  @Test
  void aFileThatTakesTheStackOrTheMemoryCostsOnlyItsPage() throws IOException {
    library.jobs().add(book, List.of(picture("deep.png"), picture("bomb.png"), picture("two.png")));
    worker.runAll();
    assertThat(states()).containsExactly(PageState.FAILED, PageState.FAILED, PageState.READ);
    assertThat(library.jobs().latest(book).orElseThrow().state()).isEqualTo(Job.State.DONE);
  }

  @Test
  void onlyThePageOfTheBookBeingReadIsSkipped() throws IOException {
    String other = library.books().add("Another", "Bass").id();
    library.jobs().add(book, List.of(picture("one.png")));
    List<Boolean> mine = new ArrayList<>();
    events.listen(
        book,
        (name, data) -> {
          if (name.equals("page")) {
            mine.add(worker.skip(book));
            assertThat(worker.skip(other)).isFalse();
          }
        });
    worker.runAll();
    assertThat(mine).isNotEmpty().doesNotContain(false);
    assertThat(worker.skip(book)).as("nothing is being read").isFalse();
  }

  /** Browsers send many files in several uploads; the later ones are not opened yet. */
  @Test
  void filesNotYetOpenedCountAmongThePagesToRead() throws IOException {
    library.jobs().add(book, List.of(picture("one.png")));
    library.jobs().add(book, List.of(picture("two.png"), picture("three.png")));
    List<String> told = new ArrayList<>();
    events.listen(book, (name, data) -> told.add(String.valueOf(data)));
    worker.runAll();
    assertThat(told).anyMatch(t -> t.contains("Reading page 1 of 3"));
    assertThat(told).noneMatch(t -> t.contains("Reading page 1 of 1"));
  }

  /** A page with a small picture in JPEG 2000 that is none; the rest of it is read. */
  @Test
  void whatWasLeftOutOfAPageIsStillSaidWhenItWasRead() throws IOException {
    Path file = library.pages().folder(book).resolve("u-logo.pdf");
    try (PDDocument d = new PDDocument()) {
      PDPage page = new PDPage(PDRectangle.A4);
      d.addPage(page);
      COSStream broken = d.getDocument().createCOSStream();
      try (OutputStream out = broken.createRawOutputStream()) {
        out.write(new byte[20]);
      }
      broken.setItem(COSName.FILTER, COSName.JPX_DECODE);
      broken.setInt(COSName.WIDTH, 100);
      broken.setInt(COSName.HEIGHT, 100);
      try (PDPageContentStream content = new PDPageContentStream(d, page)) {
        content.drawImage(new PDImageXObject(new PDStream(broken), null), 20, 20, 40, 40);
      }
      d.save(file.toFile());
    }
    library.jobs().add(book, List.of(new Jobs.Upload("l", "logo.pdf", file)));
    worker.runAll();
    PageCard card = library.pages().all(book).get(0);
    assertThat(card.state()).isEqualTo(PageState.READ);
    assertThat(card.finding().orElse("")).contains("logo.pdf", "picture on page 1");
  }

  @Test
  void anOpeningIsTwoPagesAndReadAgainStillTwo() throws IOException {
    library.jobs().add(book, List.of(picture("opening.png"), picture("three.png")));
    worker.runAll();
    assertThat(library.pages().all(book)).extracting(PageCard::part).containsExactly(1, 2, 1);
    long revision = library.drafts().find(book).orElseThrow().revision();
    library.pages().again(book, revision, library.pages().all(book).get(0).id());
    // that is all: a kill right after it leaves no page that waits for ever
    reopen();
    worker.runAll();
    assertThat(states()).containsOnly(PageState.READ);
    assertThat(library.pages().all(book)).hasSize(3);
    assertThat(library.drafts().find(book).orElseThrow().value().map().bars()).hasSize(18);
  }

  @Test
  void aKillInTheMiddleIsGoneOnWithAfterARestart() throws IOException {
    library.jobs().add(book, List.of(picture("one.png"), picture("two.png")));
    reader.die();
    assertThatThrownBy(() -> worker.runAll()).isInstanceOf(ThreadDeath.class);
    assertThat(states()).containsExactly(PageState.READING, PageState.WAITING);
    reopen();
    worker.runAll();
    assertThat(states()).containsExactly(PageState.READ, PageState.READ);
    assertThat(library.pages().all(book)).hasSize(2);
  }

  /** The program was ended under it; that says nothing of the page. */
  @Test
  void aPageBrokenOffByKillsIsReadAgainHoweverOften() throws IOException {
    library.jobs().add(book, List.of(picture("one.png")));
    for (int i = 0; i < 5; i++) {
      reader.die();
      assertThatThrownBy(() -> worker.runAll()).isInstanceOf(ThreadDeath.class);
      reopen();
    }
    worker.runAll();
    assertThat(states()).containsExactly(PageState.READ);
    assertThat(library.jobs().latest(book).orElseThrow().state()).isEqualTo(Job.State.DONE);
  }

  @Test
  void whatAPersonSetSurvivesPagesThatComeLater() throws IOException {
    library.jobs().add(book, List.of(picture("one.png")));
    worker.runAll();
    Versioned<Draft> draft = library.drafts().find(book).orElseThrow();
    String bar = draft.value().map().bars().get(1).id();
    library.drafts().correct(book, draft.revision(), "", new BarCorrection.SetCount(bar, 8));
    library.jobs().add(book, List.of(picture("two.png")));
    worker.runAll();
    Draft later = library.drafts().find(book).orElseThrow().value();
    assertThat(later.map().bars()).hasSize(12);
    assertThat(later.map().bar(bar).orElseThrow().count()).isEqualTo(8);
    assertThat(later.map().bars().stream().map(Bar::number)).startsWith(1, 2, 10).endsWith(18, 19);
  }

  @Test
  void aWorkerInAThreadWakesUp() throws Exception {
    worker.start();
    library.jobs().add(book, List.of(picture("one.png")));
    worker.wake();
    org.awaitility.Awaitility.await().until(() -> states().equals(List.of(PageState.READ)));
    worker.close();
  }

  @Test
  void whatWasReadIsTheSameAfterItWasStored() {
    ReadPage page = reader.read(Path.of("x"), "one.png", 4).get(0).page().orElseThrow();
    ReadPage back = StoredPage.read(StoredPage.write(page), 4);
    assertThat(back.systems().get(1).system()).isEqualTo(page.systems().get(1).system());
    assertThat(back.systems().get(1).shape().between(3, 17.5).rounded())
        .isEqualTo(page.systems().get(1).shape().between(3, 17.5).rounded());
  }
}
