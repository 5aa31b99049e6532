package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.stream.IntStream;
import org.barmap.library.PageCard;
import org.barmap.web.picture.PageScaling;
import org.junit.jupiter.api.Test;

/** Everybody opens the same page at the same moment. */
class PageScalingTest extends RunningServer {

  /** Asks for a smaller picture, and tells which file it was then: one made anew is another. */
  private Object file(String book, PageCard page, Path small) {
    try {
      PageScaling.jpeg(library, book, page, 500).close();
      return Objects.requireNonNull(
          Files.readAttributes(small, BasicFileAttributes.class).fileKey());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void aSmallerPictureIsMadeOnce() throws Exception {
    String book = readBook();
    PageCard page = library.pages().all(book).get(0);
    Path small = folder.resolve("cache").resolve(page.id() + "-500.jpg");
    List<CompletableFuture<Object>> files =
        IntStream.range(0, 24)
            .mapToObj(i -> CompletableFuture.supplyAsync(() -> file(book, page, small)))
            .toList();
    assertThat(files.stream().map(CompletableFuture::join).distinct()).hasSize(1);
  }
}
