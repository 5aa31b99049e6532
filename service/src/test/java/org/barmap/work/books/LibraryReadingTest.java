package org.barmap.work.books;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.barmap.extract.Extraction;
import org.barmap.extract.Extractor;
import org.barmap.extract.Options;
import org.barmap.extract.Progress;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.json.BarMapJson;
import org.barmap.sign.ReadPage;
import org.barmap.work.DrawnPage;
import org.barmap.work.ExtractorReader;
import org.barmap.work.PageReader;
import org.barmap.work.books.BookLine.State;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A small library of drawn pages. What {@code Extractor} makes of a book is the oracle. */
class LibraryReadingTest {

  private static final ExtractorReader READER = new ExtractorReader();

  private static final Map<String, List<PageReader.Result>> READ = new HashMap<>();

  @TempDir private Path folder;

  private Path library;
  private Path out;

  /** Reads, and dies instead of reading one page. */
  private static final class Mortal implements PageReader {
    private final int dies;
    private int reads;

    Mortal(int dies) {
      this.dies = dies;
    }

    /** As a kill: nobody catches it. */
    private static final class Killed extends Error {
      private static final long serialVersionUID = 1L;
    }

    @Override
    public List<Result> read(Path picture, String source, int index) {
      reads++;
      if (reads == dies) {
        throw new Killed();
      }
      // what is read on a page does not depend on when: each is really read once
      return READ.computeIfAbsent(
          source + " " + picture.getFileName(), p -> READER.read(picture, source, index));
    }

    @Override
    public BarMap settle(Book book, List<ReadPage> pages) {
      return READER.settle(book, pages);
    }

    @Override
    public void close() {}
  }

  @AfterAll
  static void close() {
    READER.close();
  }

  @BeforeEach
  void library() throws IOException {
    library = Files.createDirectory(folder.resolve("library"));
    out = folder.resolve("maps");
    page("Show A/Bass/p1.png", 3, 4);
    page("Show A/Bass/p2.png", 5, 2);
    Path pdf = Files.createDirectories(library.resolve("Show B")).resolve("=Bass.pdf");
    try (PDDocument d = new PDDocument()) {
      for (int n = 2; n <= 3; n++) {
        PDPage page = new PDPage();
        d.addPage(page);
        try (PDPageContentStream content = new PDPageContentStream(d, page)) {
          Path image = DrawnPage.draw(folder.resolve("pdf-" + n + ".png"), n, n + 2);
          PDImageXObject drawn = PDImageXObject.createFromFileByContent(image.toFile(), d);
          content.drawImage(drawn, 0, 300, 612, 395);
        }
      }
      d.save(pdf.toFile());
    }
    Files.writeString(
        Files.createDirectories(library.resolve("Show A/bad")).resolve("x.png"), "no picture");
    Files.createDirectories(library.resolve("empty"));
    page(".hidden/p.png", 3, 3);
    Files.createSymbolicLink(library.resolve("round"), library);
  }

  private void page(String to, int... bars) throws IOException {
    Path file = library.resolve(to);
    Files.createDirectories(file.getParent());
    DrawnPage.draw(file, bars);
  }

  private LibraryReading reading(PageReader reader) {
    return new LibraryReading(
        library, out, reader, book -> List.of(), (done, of, book, left) -> {});
  }

  private Map<String, String> maps() throws IOException {
    try (Stream<Path> files = Files.walk(out)) {
      Map<String, String> maps = new TreeMap<>();
      for (Path f : files.filter(p -> p.toString().endsWith(".barmap.json")).toList()) {
        maps.put(out.relativize(f).toString(), Files.readString(f));
      }
      return maps;
    }
  }

  private static List<String> bars(BarMap map) {
    return map.bars().stream().map(LibraryReadingTest::bar).collect(Collectors.toList());
  }

  private static String bar(Bar b) {
    return b.page() + "/" + b.system() + " " + b.number() + " x" + b.count() + " " + b.endBarline();
  }

  @Test
  void everyBookIsReadAndABadOneStopsNone() throws IOException {
    List<BookLine> lines = reading(new Mortal(-1)).run();
    assertThat(lines)
        .extracting(BookLine::book)
        .containsExactly("Show A/Bass", "Show A/bad", "Show B/=Bass.pdf");
    assertThat(lines)
        .extracting(BookLine::state)
        .containsExactly(State.READ, State.FAILED, State.READ);
    assertThat(lines.get(1).failures()).hasSize(1);
    assertThat(lines.get(1).failures().get(0)).startsWith("x.png");
    Extraction oracle;
    try (Extractor extractor = Extractor.open()) {
      oracle = extractor.read(List.of(library.resolve("Show A/Bass")), Options.NONE, Progress.NONE);
      assertThat(bars(BarMapJson.read(out.resolve("Show B/=Bass.pdf.barmap.json"))))
          .isEqualTo(
              bars(
                  extractor
                      .read(
                          List.of(library.resolve("Show B/=Bass.pdf")), Options.NONE, Progress.NONE)
                      .map()));
    }
    BarMap map = BarMapJson.read(out.resolve("Show A/Bass.barmap.json"));
    assertThat(bars(map)).isEqualTo(bars(oracle.map()));
    assertThat(map.book()).isEqualTo(new Book("Show A", "Bass"));
    assertThat(lines.get(0).pages()).isEqualTo(2);
    assertThat(lines.get(0).bars()).isEqualTo(oracle.map().writtenBars());
    LibraryReport report = new LibraryReport(lines);
    report.write(out);
    assertThat(report.failed()).isTrue();
    assertThat(Files.readString(out.resolve("report.csv")))
        .startsWith("book,state,pages,bars,doubts,seconds,map,failures\r\nShow A/Bass,read,2,")
        .contains("Show B/=Bass.pdf");
    assertThat(Files.readString(out.resolve("report.txt")))
        .contains("NOT READ", "3 books: 2 read, 0 unchanged, 1 not read");
    assertThat(
            BarMapJson.mapper()
                .readTree(Files.readString(out.resolve("report.json")))
                .at("/books/1/failures/0")
                .asString())
        .startsWith("x.png");
  }

  @Test
  void whatIsDoneIsReadAgainOnlyWhenItChanged() throws IOException {
    reading(new Mortal(-1)).run();
    Mortal second = new Mortal(-1);
    List<BookLine> lines = reading(second).run();
    assertThat(second.reads).isZero();
    assertThat(lines)
        .extracting(BookLine::state)
        .containsExactly(State.UNCHANGED, State.UNCHANGED, State.UNCHANGED);
    assertThat(lines.get(0).bars()).isPositive();
    Files.setLastModifiedTime(
        library.resolve("Show A/Bass/p2.png"),
        FileTime.from(Instant.parse("2026-01-01T00:00:00Z")));
    Files.delete(out.resolve("Show B/=Bass.pdf.barmap.json"));
    Mortal third = new Mortal(-1);
    assertThat(reading(third).run())
        .extracting(BookLine::state)
        .containsExactly(State.READ, State.UNCHANGED, State.READ);
    assertThat(third.reads).isEqualTo(4);
  }

  @Test
  void aKillLosesThePageUnderWayAndNothingElse() throws IOException {
    reading(new Mortal(-1)).run();
    Map<String, String> whole = maps();
    for (int at = 1; at <= 4; at++) {
      out = folder.resolve("killed-" + at);
      Mortal first = new Mortal(at);
      assertThatThrownBy(() -> reading(first).run()).isInstanceOf(Mortal.Killed.class);
      for (String map : maps().values()) {
        assertThat(whole).containsValue(map);
      }
      Mortal second = new Mortal(-1);
      reading(second).run();
      assertThat(maps()).as("killed at page " + at).isEqualTo(whole);
      // two pages of pictures, two of a PDF; one file can't be opened
      assertThat(first.reads + second.reads).isEqualTo(4 + 1);
      try (Stream<Path> left = Files.walk(out)) {
        assertThat(left.map(Path::toString))
            .noneMatch(f -> f.endsWith(".part") || f.contains(".under-way/"));
      }
    }
  }

  @Test
  void twoRunsDoNotWriteIntoOneFolder() throws IOException {
    List<Throwable> met = new ArrayList<>();
    new LibraryReading(
            library,
            out,
            new Mortal(-1),
            book -> {
              met.add(catchThrowable(() -> reading(new Mortal(-1)).run()));
              return List.of();
            },
            (done, of, book, left) -> {})
        .run();
    assertThat(met).hasSize(2);
    assertThat(met.get(0))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("another run");
  }
}
