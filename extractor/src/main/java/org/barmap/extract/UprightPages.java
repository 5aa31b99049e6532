package org.barmap.extract;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.barmap.page.PageImage;
import org.barmap.page.PageResult;
import org.barmap.page.file.PageFiles;
import org.opencv.core.MatOfByte;
import org.opencv.imgcodecs.Imgcodecs;

/** Writes pages as they are read: upright, even light, one picture each; for other readers. */
public final class UprightPages {

  private UprightPages() {}

  /**
   * Writes one PNG of 8-bit gray for each page that can be opened.
   *
   * @param paths files and folders in the order of the book
   * @param folder is made where it does not exist; files are called {@code page-0001.png} …, by the
   *     page's index in the book
   * @return the files written
   * @throws IOException when a file can't be written
   */
  public static List<Path> write(List<Path> paths, Path folder) throws IOException {
    return write(
        paths,
        folder,
        (image, index) -> {
          Path file = folder.resolve(String.format(Locale.ROOT, "page-%04d.png", index));
          return Files.write(file, png(image));
        });
  }

  /** Writes a picture of one page. */
  @FunctionalInterface
  interface PageWriter {

    /** Returns the file written. */
    Path write(PageImage image, int index) throws IOException;
  }

  /** Writes a picture of each page that can be opened, by its index in the book, from 1 on. */
  static List<Path> write(List<Path> paths, Path folder, PageWriter writer) throws IOException {
    Files.createDirectories(folder);
    List<Path> written = new ArrayList<>();
    int index = 0;
    try (PagesAhead source = new PagesAhead(PageFiles.list(paths).files())) {
      while (source.hasNext()) {
        PageResult result = source.next();
        index++;
        if (result instanceof PageResult.Loaded loaded) {
          try (PageImage image = loaded.page()) {
            written.add(writer.write(image, index));
          }
        }
      }
    }
    return List.copyOf(written);
  }

  private static byte[] png(PageImage image) {
    MatOfByte bytes = new MatOfByte();
    try {
      Imgcodecs.imencode(".png", image.gray(), bytes);
      return bytes.toArray();
    } finally {
      bytes.release();
    }
  }
}
