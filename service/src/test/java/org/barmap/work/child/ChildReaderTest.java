package org.barmap.work.child;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import javax.imageio.ImageIO;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSStream;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.graphics.shading.PDShadingType1;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.Pages;
import org.barmap.map.Outline;
import org.barmap.sign.ReadPage;
import org.barmap.work.DrawnPage;
import org.barmap.work.ExtractorReader;
import org.barmap.work.PageLostException;
import org.barmap.work.PageReader;
import org.barmap.work.ReadingStoppedException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A real child process: what it reads, and what its end costs. */
class ChildReaderTest {

  private static final ChildLimits QUICK =
      new ChildLimits(Duration.ofSeconds(2), Duration.ofMinutes(1), 256, 2, 2, 2);

  @TempDir private Path dir;

  /** Two staves with three bars each. */
  private Path music() throws IOException {
    return DrawnPage.draw(dir.resolve("music.png"), 3, 3);
  }

  /** Also when it is killed, and has had no time to clear up. */
  @Test
  void itsTemporaryFolderGoesWithIt() throws IOException {
    try (ChildReader reader = new ChildReader(ReadingChild.class)) {
      reader.count(music());
      ProcessHandle process = reader.process().orElseThrow();
      Path folder = reader.temporary().orElseThrow();
      assertThat(folder).isDirectory();
      process.destroyForcibly();
      await().until(() -> !Files.exists(folder));
    }
  }

  /** A shading whose every pixel is reckoned by a program of thousands of steps. */
  private static void endless(PDDocument d, PDPageContentStream content) throws IOException {
    COSStream program = d.getDocument().createCOSStream();
    program.setInt(COSName.FUNCTION_TYPE, 4);
    program.setItem(COSName.DOMAIN, numbers(0, 900, 0, 900));
    program.setItem(COSName.RANGE, numbers(0, 1));
    try (OutputStream out = program.createOutputStream()) {
      String steps = "{ pop " + "1 add 1 sub ".repeat(5_000) + "}";
      out.write(steps.getBytes(StandardCharsets.US_ASCII));
    }
    COSDictionary shading = new COSDictionary();
    shading.setInt(COSName.SHADING_TYPE, 1);
    shading.setItem(COSName.COLORSPACE, COSName.DEVICEGRAY);
    shading.setItem(COSName.DOMAIN, numbers(0, 900, 0, 900));
    shading.setItem(COSName.FUNCTION, program);
    content.shadingFill(new PDShadingType1(shading));
  }

  private static COSArray numbers(float... numbers) {
    COSArray array = new COSArray();
    array.setFloatArray(numbers);
    return array;
  }

  private Path withEndlessPages(boolean... endless) throws IOException {
    Path file = dir.resolve("book.pdf");
    try (PDDocument d = new PDDocument()) {
      for (boolean e : endless) {
        PDPage page = new PDPage();
        d.addPage(page);
        try (PDPageContentStream content = new PDPageContentStream(d, page)) {
          if (e) {
            endless(d, content);
          }
        }
      }
      d.save(file.toFile());
    }
    return file;
  }

  @Test
  void itMakesPicturesSmaller() throws IOException {
    Path small = dir.resolve("small.jpg");
    Path broken = Files.writeString(dir.resolve("broken.png"), "no picture");
    try (ChildReader child = new ChildReader(ReadingChild.class)) {
      child.scale(music(), 400, small);
      assertThat(ImageIO.read(small.toFile()).getWidth()).isEqualTo(400);
      child.process().orElseThrow().destroyForcibly();
      child.scale(music(), 300, small);
      assertThat(ImageIO.read(small.toFile()).getWidth()).as("by a new child").isEqualTo(300);
      Path none = dir.resolve("none.jpg");
      assertThatThrownBy(() -> child.scale(broken, 300, none)).isInstanceOf(IOException.class);
      assertThat(none).doesNotExist();
    }
  }

  @Test
  void itReadsWhatTheExtractorReadsAndTellsWhy() throws IOException {
    Path broken = Files.writeString(dir.resolve("broken.png"), "no picture");
    try (ChildReader child = new ChildReader(ReadingChild.class);
        ExtractorReader here = new ExtractorReader()) {
      PageReader.Result there = child.read(music(), "one.png", 7).get(0);
      PageReader.Result own = here.read(music(), "one.png", 7).get(0);
      assertThat(Answer.page(there)).isEqualTo(Answer.page(own));
      assertThat(there.page().orElseThrow().index()).isEqualTo(7);
      assertThat(there.page().orElseThrow().systems()).hasSize(2);
      assertThat(child.read(broken, "x", 1).get(0).findings()).hasSize(1);
      assertThat(child.count(broken)).isEqualTo(1);
      assertThat(child.open(music(), "one.png"))
          .containsExactly(new Pages.NewPage("one.png", "music.png", 1240, 800, Optional.empty()));
      long pid = child.process().orElseThrow().pid();
      assertThat(child.read(music(), "two.png", 8)).hasSize(1);
      assertThat(child.process().orElseThrow().pid()).as("one child for all").isEqualTo(pid);
    }
  }

  @Test
  void anEndlessPageIsBrokenOff() throws IOException {
    try (ChildReader child = new ChildReader(ReadingChild.class, QUICK)) {
      List<Pages.NewPage> pages = child.open(withEndlessPages(true), "book.pdf");
      assertThat(pages).extracting(Pages.NewPage::picture).containsExactly("");
      assertThat(pages.get(0).finding().orElse("")).contains("page 1 of book.pdf", "took longer");
    }
  }

  @Test
  void aPageThatIsSkippedCostsOnePageAndACrashIsTriedAgain() throws Exception {
    try (ChildReader child = new ChildReader(ReadingChild.class)) {
      Path file = withEndlessPages(false, true, false);
      assertThat(child.count(file)).isEqualTo(3);
      CompletableFuture<List<Pages.NewPage>> opened =
          CompletableFuture.supplyAsync(() -> open(child, file));
      Path first = dir.resolve("book.pdf-1.png");
      await().atMost(Duration.ofMinutes(1)).until(() -> Files.exists(first));
      // the child says that it is there before it begins with the next one
      await().pollDelay(Duration.ofMillis(500)).until(() -> !opened.isDone());
      child.skip();
      List<Pages.NewPage> pages = opened.join();
      assertThat(pages)
          .extracting(Pages.NewPage::picture)
          .containsExactly("book.pdf-1.png", "", "book.pdf-3.png");
      assertThat(pages.get(1).finding().orElse(""))
          .contains("page 2 of book.pdf", "as you asked", "add it again");
      assertThat(dir.resolve("book.pdf-3.png")).exists();

      music();
      ProcessHandle process = child.process().orElseThrow();
      CompletableFuture<List<PageReader.Result>> read =
          CompletableFuture.supplyAsync(() -> read(child));
      process.destroyForcibly();
      assertThat(read.join()).hasSize(1);
    }
  }

  /** Ends the process that reads so often, each time when it has just been started. */
  private static void kill(ChildReader child, int times) {
    long before = 0;
    for (int i = 0; i < times; i++) {
      long old = before;
      await()
          .pollDelay(Duration.ZERO)
          .pollInterval(Duration.ofMillis(5))
          .until(() -> child.process().filter(p -> p.isAlive() && p.pid() != old).isPresent());
      before = child.process().orElseThrow().pid();
      child.process().ifPresent(ProcessHandle::destroyForcibly);
    }
  }

  /**
   * As the system ends one for want of memory, or a person: the file or the line is not at fault.
   */
  @Test
  void whoIsKilledBeginsAgain() throws Exception {
    try (ChildReader child = new ChildReader(ReadingChild.class)) {
      Path file = withEndlessPages(false, false);
      CompletableFuture<List<Pages.NewPage>> opened =
          CompletableFuture.supplyAsync(() -> open(child, file));
      kill(child, 3);
      assertThat(opened.join())
          .extracting(Pages.NewPage::picture)
          .containsExactly("book.pdf-1.png", "book.pdf-2.png");
      music();
      child.process().orElseThrow().destroyForcibly();
      CompletableFuture<List<PageReader.Result>> read =
          CompletableFuture.supplyAsync(() -> read(child));
      kill(child, 3);
      assertThat(read.join().get(0).page()).isPresent();
      child.process().orElseThrow().destroyForcibly();
      CompletableFuture<Integer> counted = CompletableFuture.supplyAsync(() -> child.count(file));
      kill(child, 3);
      assertThat(counted.join()).isEqualTo(2);
      child.process().orElseThrow().destroyForcibly();
      CompletableFuture<Optional<ReadPage>> line =
          CompletableFuture.supplyAsync(() -> readLine(child));
      kill(child, 3);
      assertThat(line.join()).isPresent();
    }
  }

  /** Ends as one that has no memory left. */
  static final class Ends {
    private Ends() {}

    public static void main(String[] args) {
      Runtime.getRuntime().halt(ReadingChild.NO_MEMORY);
    }
  }

  private Optional<ReadPage> readLine(ChildReader child) {
    Outline frame = Outline.box(60, 150, 1180, 350);
    PageCard page =
        new PageCard(
            "p", 1, "one.png", 1240, 800, PageState.READ, Optional.empty(), "music.png", 1);
    return child.read(dir.resolve("music.png"), page, frame);
  }

  /** What ends it by itself may be in the file: that is given up. */
  @Test
  void aFileThatCrashesItAgainAndAgainIsGivenUp() throws Exception {
    try (ChildReader child = new ChildReader(Ends.class)) {
      List<Pages.NewPage> pages = child.open(music(), "book.pdf");
      assertThat(pages).extracting(Pages.NewPage::picture).containsExactly("");
      assertThat(pages.get(0).finding().orElse("")).contains("page 1 of book.pdf", "broke off");
    }
  }

  @Test
  void atTheEndOfTheServiceThePageWaitsToBeReadAgain() throws Exception {
    try (ChildReader child = new ChildReader(ReadingChild.class)) {
      Path file = withEndlessPages(true);
      CompletableFuture<List<Pages.NewPage>> opened =
          CompletableFuture.supplyAsync(() -> open(child, file));
      await().until(() -> child.process().isPresent());
      ProcessHandle process = child.process().orElseThrow();
      child.stop();
      assertThatThrownBy(opened::join)
          .isInstanceOf(CompletionException.class)
          .hasCauseInstanceOf(ReadingStoppedException.class);
      await().until(() -> !process.isAlive());
      assertThatThrownBy(() -> child.read(file, "x", 1))
          .isInstanceOf(ReadingStoppedException.class)
          .isNotInstanceOf(PageLostException.class);
    }
  }

  private List<PageReader.Result> read(ChildReader child) {
    return child.read(dir.resolve("music.png"), "one.png", 1);
  }

  private static List<Pages.NewPage> open(ChildReader child, Path file) {
    try {
      return child.open(file, "book.pdf");
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }
}
