package org.barmap.bench;

import java.io.IOException;
import java.nio.file.Path;
import org.barmap.page.PageSource;
import org.barmap.page.file.Document;
import org.barmap.page.file.UnreadableException;
import org.barmap.page.pixel.Mats;
import org.opencv.core.Mat;
import org.opencv.imgproc.Imgproc;

/** The least any reader must do with a page: decode it and tell ink from paper once. */
final class PageFloor {

  /** Side of the square a pixel is compared with, pixels: three staff spaces at 300 dpi. */
  private static final int AROUND = 51;

  private static final double DARKER = 12;

  private PageFloor() {}

  /**
   * Decodes every page of a file as the reader does and applies one adaptive threshold to the whole
   * gray picture.
   *
   * @return number of pages
   * @throws IOException when the file can't be read
   */
  static int measure(Path file) throws IOException {
    try (Document document = PageSource.document(file)) {
      for (int i = 0; i < document.pages(); i++) {
        try (Mats scope = new Mats()) {
          Mat gray = scope.keep(document.page(i));
          Imgproc.adaptiveThreshold(
              gray,
              scope.mat(),
              255,
              Imgproc.ADAPTIVE_THRESH_MEAN_C,
              Imgproc.THRESH_BINARY_INV,
              AROUND,
              DARKER);
        }
      }
      return document.pages();
    } catch (UnreadableException e) {
      throw new IOException(e.getMessage(), e);
    }
  }
}
