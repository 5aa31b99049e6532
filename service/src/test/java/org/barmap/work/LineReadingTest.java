package org.barmap.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.BarCorrection;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.library.Saved;
import org.barmap.library.Versioned;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Enclosure;
import org.barmap.map.Outline;
import org.barmap.map.Page;
import org.barmap.map.Point;
import org.barmap.map.RehearsalMark;
import org.barmap.map.StaffSystem;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/**
 * A line that a person draws is read as one that was found. What is on the page is known from its
 * source: the truth that was written along with the demo book's pictures.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class LineReadingTest {

  private static final int PAGE = 1;

  /** A line with a rest of several bars, and the one after it with a rehearsal mark. */
  private static final int WITH_REST = 4;

  private static final int WITH_MARK = 5;

  private final List<String> told = new ArrayList<>();
  private ExtractorReader reader;
  private BarMap truth;
  private Library library;
  private Worker worker;
  private String book;

  @SuppressWarnings("NullAway.Init") // before all tests
  LineReadingTest() {}

  @BeforeAll
  void open() throws IOException {
    reader = new ExtractorReader();
    truth = BarMapJson.read(demo("saltmarsh.barmap.json"));
  }

  @AfterAll
  void close() {
    reader.close();
  }

  @BeforeEach
  void shelve(@TempDir Path data) throws IOException {
    library = SqliteLibrary.open(data, Clock.systemUTC());
    book = library.books().add("Saltmarsh", "Bass").id();
    List<Pages.NewPage> pages = new ArrayList<>();
    for (Page p : truth.pages()) {
      if (p.index() == PAGE) {
        Files.copy(demo(p.source()), library.pages().folder(book).resolve(p.source()));
      }
      pages.add(new Pages.NewPage(p.source(), p.source(), p.width(), p.height(), Optional.empty()));
    }
    library.pages().add(book, pages, Optional.empty());
    library.readings().lay(book, library.readings().material(book), truth);
    told.clear();
    Events events = new Events();
    events.listen(
        book,
        (name, event) -> {
          if (event instanceof JobView job) {
            told.add(job.state() + ": " + job.text());
          }
        });
    worker = new Worker(library, reader, events);
  }

  @AfterEach
  void shut() {
    library.close();
  }

  @Test
  void aLineTakenOutAndDrawnAgainIsReadAsItIsPrinted() {
    List<Bar> rest = truth(WITH_REST);
    assertThat(rest).anyMatch(b -> b.count() > 1);
    Draft without = corrected(new PageCorrection.RemoveSystem(PAGE, WITH_REST));
    String elsewhere = truth(7).get(2).id();
    Draft said = corrected(new BarCorrection.SetRehearsal(elsewhere, "Q", Enclosure.CIRCLE));
    Saved.Done<Draft> done = done(read(drawn(WITH_REST)));
    Draft now = done.now().value();
    assertSame(now.barsIn(PAGE, WITH_REST), rest);
    assertThat(done.entry().text()).isEqualTo("Line read on page 1: 5 bars");
    assertThat(now.map().bar(elsewhere).flatMap(Bar::rehearsal).map(RehearsalMark::text))
        .contains("Q");
    assertThat(numbers(now)).as("all bars are called as before").isEqualTo(numbers(truth));
    assertThat(told)
        .containsExactly(
            "running: Reading the line drawn on page 1", "done: The line drawn on page 1 is read");

    Draft back = done(library.drafts().undo(book, done.now().revision())).now().value();
    assertThat(back.map().bars()).isEqualTo(said.map().bars());
    assertThat(back.map().pages()).isEqualTo(without.map().pages());
    Draft again = done(library.drafts().redo(book, now().revision())).now().value();
    assertThat(again.map().bars()).isEqualTo(now.map().bars());
  }

  @Test
  void itsMarkIsReadAndNoLaterReadingTakesItAway() {
    corrected(new PageCorrection.RemoveSystem(PAGE, WITH_MARK));
    Draft now = done(read(drawn(WITH_MARK))).now().value();
    assertSame(now.barsIn(PAGE, WITH_MARK), truth(WITH_MARK));
    assertThat(now.barsIn(PAGE, WITH_MARK).get(0).rehearsal().map(RehearsalMark::text))
        .contains("B");
    library.readings().lay(book, library.readings().material(book), truth);
    assertSame(now().value().barsIn(PAGE, WITH_MARK), truth(WITH_MARK));
  }

  @Test
  void whereNothingIsPrintedItStartsAsOneBar() {
    // the margin under the last line
    Page page = truth.pages().get(PAGE - 1);
    double top = page.height() - 130.0;
    Outline frame = Outline.box(200, top, page.width() - 200.0, top + 80);
    Draft now = done(read(frame)).now().value();
    List<Bar> last = now.barsIn(PAGE, page.systems().size() + 1);
    assertThat(last).hasSize(1);
    assertThat(now.map().bars()).hasSize(truth.bars().size() + 1);
  }

  @Test
  void aLineThatIsThereIsNotReadTwiceAndAnOldRevisionIsRefused() {
    long before = now().revision();
    assertThat(read(drawn(WITH_REST))).isInstanceOf(Saved.Refused.class);
    corrected(new PageCorrection.RemoveSystem(PAGE, WITH_REST));
    Saved<Draft> late = worker.lines().read(book, page(), before, "", frame(drawn(WITH_REST)));
    assertThat(late).isInstanceOf(Saved.Stale.class);
    assertThat(told).as("nothing was read for either").isEmpty();
  }

  /** What a person sees of a bar, but for its key, which the truth of the demo book leaves out. */
  private static void assertSame(List<Bar> read, List<Bar> printed) {
    assertThat(read.stream().map(LineReadingTest::seen).toList())
        .isEqualTo(printed.stream().map(LineReadingTest::seen).toList());
  }

  private static String seen(Bar b) {
    return "%d %s x%d %s %s %s %s"
        .formatted(
            b.number(),
            b.content(),
            b.count(),
            b.rehearsal().map(RehearsalMark::text).orElse("-"),
            b.meter(),
            b.startBarline(),
            b.endBarline());
  }

  private static List<Integer> numbers(Draft draft) {
    return numbers(draft.map());
  }

  private static List<Integer> numbers(BarMap map) {
    return map.bars().stream().map(Bar::number).toList();
  }

  private List<Bar> truth(int line) {
    return truth.bars().stream().filter(b -> b.page() == PAGE && b.system() == line).toList();
  }

  /** As a hand draws it: half a staff space off at every corner. */
  private Outline drawn(int line) {
    StaffSystem system = truth.pages().get(PAGE - 1).systems().get(line - 1);
    Outline o = system.outline();
    double off = system.staffSpace() / 2;
    return new Outline(
        new Point(o.topLeft().x() - off, o.topLeft().y() - off),
        new Point(o.topRight().x() + off, o.topRight().y() - off),
        new Point(o.bottomRight().x() + off, o.bottomRight().y() + off),
        new Point(o.bottomLeft().x() - off, o.bottomLeft().y() + off));
  }

  private static PageCorrection.AddSystem frame(Outline outline) {
    return new PageCorrection.AddSystem(PAGE, Optional.of(outline));
  }

  private Saved<Draft> read(Outline outline) {
    return worker.lines().read(book, page(), now().revision(), "B.", frame(outline));
  }

  private Draft corrected(Correction correction) {
    return done(library.drafts().correct(book, now().revision(), "", correction)).now().value();
  }

  private static Saved.Done<Draft> done(Saved<Draft> saved) {
    assertThat(saved).isInstanceOf(Saved.Done.class);
    return (Saved.Done<Draft>) saved;
  }

  private Versioned<Draft> now() {
    return library.drafts().find(book).orElseThrow();
  }

  private PageCard page() {
    return library.pages().all(book).get(PAGE - 1);
  }

  private static Path demo(String name) {
    return Path.of(System.getProperty("barmap.home", ".."), "corpus", "saltmarsh", name);
  }
}
