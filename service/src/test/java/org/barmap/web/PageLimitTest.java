package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriter;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.barmap.library.Jobs;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;

/** A book has at most 600 pages, however they come: those inside a PDF or a TIFF count. */
class PageLimitTest extends RunningServer {

  private static byte[] pdf(int pages) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (PDDocument d = new PDDocument()) {
      for (int i = 0; i < pages; i++) {
        d.addPage(new PDPage(new PDRectangle(72, 72)));
      }
      d.save(out);
    }
    return out.toByteArray();
  }

  private static byte[] tiff(int frames) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageWriter writer = ImageIO.getImageWritersByFormatName("TIFF").next();
    try (var to = ImageIO.createImageOutputStream(out)) {
      writer.setOutput(to);
      writer.prepareWriteSequence(null);
      var frame = new BufferedImage(40, 40, BufferedImage.TYPE_BYTE_BINARY);
      for (int i = 0; i < frames; i++) {
        writer.writeToSequence(new IIOImage(frame, null, null), null);
      }
      writer.endWriteSequence();
    }
    writer.dispose();
    return out.toByteArray();
  }

  private void refused(HttpResponse<String> answer, String book, String file, int inside)
      throws IOException {
    assertProblem(answer, ApiError.TOO_MANY_PAGES);
    assertThat(answer.body()).contains(file + " has " + inside + " pages");
    assertThat(library.pages().all(book)).isEmpty();
    try (Stream<Path> kept = Files.list(library.pages().folder(book))) {
      assertThat(kept).isEmpty();
    }
  }

  @Test
  void pagesInsidePdfsAndTiffsCount() throws Exception {
    String book = newBook();
    refused(upload(book, "long.pdf", pdf(601)), book, "long.pdf", 601);
    refused(upload(book, "long.tif", tiff(610)), book, "long.tif", 610);
    refused(upload(book, "act1.pdf", pdf(400), "act2.pdf", pdf(201)), book, "act2.pdf", 201);
    refused(upload(book, "one.png", png(), "rest.pdf", pdf(600)), book, "rest.pdf", 600);
  }

  /** The second file is counted while the first one still waits to be opened. */
  @Test
  void filesThatComeOneAfterTheOtherCountTogetherWhenTheyAreOpened() throws Exception {
    String book = newBook();
    Path folder = library.pages().folder(book);
    Path first = Files.write(folder.resolve("u1.tif"), tiff(4));
    Path second = Files.write(folder.resolve("u2.pdf"), pdf(598));
    library
        .jobs()
        .add(
            book,
            List.of(
                new Jobs.Upload("u1", "first.tif", first),
                new Jobs.Upload("u2", "second.pdf", second)));
    worker.wake();
    await().atMost(Duration.ofSeconds(60)).until(() -> library.pages().all(book).size() == 5);
    assertThat(library.pages().all(book).get(4).finding().orElse(""))
        .contains("second.pdf has 598 pages", "4 already", "600");
    // it goes once its pages are stored
    await().atMost(Duration.ofSeconds(60)).until(() -> Files.notExists(second));
  }
}
