package org.barmap.page.file;

import java.util.Optional;
import java.util.OptionalInt;
import org.opencv.core.Mat;

/** An open file with one or more page pictures. */
public interface Document extends AutoCloseable {

  /** The most pixels one picture may have; beyond it reading would need too much memory. */
  long MAX_PIXELS = Limits.STANDARD.pixels();

  /** The most pages one file may have, and one book. */
  int MAX_PAGES = Limits.STANDARD.pages();

  /** Returns the number of pages. */
  int pages();

  /** Returns page {@code index} (from 0) as an 8-bit gray image; the caller frees it. */
  Mat page(int index) throws UnreadableException;

  /** Tells whether the file is itself a picture that a browser shows. */
  default boolean isPicture() {
    return false;
  }

  /** Returns what was left out of the page handed out last, though it could be read. */
  default Optional<UnreadableException> flaw() {
    return Optional.empty();
  }

  @Override
  void close();

  /** Fails when a picture is too large to read, or too small. */
  static void checkSize(long width, long height) throws UnreadableException {
    if (width <= 0 || height <= 0) {
      throw new UnreadableException("damaged", "the picture has no size; save or scan it again.");
    }
    Limits most = Limits.STANDARD;
    if (width * height > most.pixels() || Math.max(width, height) > most.longestSide()) {
      throw tooLarge(width, height);
    }
  }

  /** Fails when a page is too large to read, or so small that nothing can be on it. */
  static void checkPage(long width, long height) throws UnreadableException {
    checkSize(width, height);
    if (Math.min(width, height) < Limits.STANDARD.shortestSide()) {
      throw new UnreadableException(
          "too-small",
          "the picture has only "
              + width
              + " x "
              + height
              + " pixels; scan or photograph the whole page.");
    }
  }

  static UnreadableException tooLarge(long width, long height) {
    return tooLarge(width, height, "", "scan at 300 dpi");
  }

  static UnreadableException tooLarge(long width, long height, int bytesOfPixel) {
    String each = " of " + bytesOfPixel + " bytes each";
    return tooLarge(width, height, each, "save it in gray with 8 bits,");
  }

  private static UnreadableException tooLarge(long width, long height, String each, String how) {
    String size = "the picture has " + width + " x " + height + " pixels" + each;
    return new UnreadableException(
        "too-large", size + ", more than can be read; " + how + " or scale it down.");
  }

  /** Fails when a file has too many pages. */
  static void checkPages(int pages) throws UnreadableException {
    if (pages > MAX_PAGES) {
      throw new UnreadableException(
          "too-many-pages",
          "the file has " + pages + " pages, at most " + MAX_PAGES + " are read; split it.",
          OptionalInt.of(pages));
    }
    if (pages == 0) {
      throw new UnreadableException("no-pages", "the file has no pages; save or scan it again.");
    }
  }
}
