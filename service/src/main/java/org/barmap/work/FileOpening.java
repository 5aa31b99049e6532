package org.barmap.work;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import org.barmap.library.Pages;
import org.barmap.library.WholeFile;
import org.barmap.map.Finding;
import org.barmap.page.PagePictures;

/** Makes page pictures out of an uploaded file; they lie beside it. */
public final class FileOpening implements PagePictures.Taker {

  private final Path file;
  private final String name;
  private final Consumer<Pages.NewPage> pages;

  private FileOpening(Path file, String name, Consumer<Pages.NewPage> pages) {
    this.file = file;
    this.name = name;
    this.pages = pages;
  }

  /**
   * Opens a file.
   *
   * @param name what the player calls it
   * @param from the first page wanted, from 0
   * @param pages takes each page when its picture is on the disk; that of a PNG or JPEG is the file
   */
  public static void open(Path file, String name, int from, Consumer<Pages.NewPage> pages)
      throws IOException {
    PagePictures.expand(file, name, from, new FileOpening(file, name, pages));
  }

  @Override
  public void page(int number, Optional<byte[]> png, int width, int height, Optional<Finding> flaw)
      throws IOException {
    String picture = String.valueOf(file.getFileName());
    String source = name;
    if (png.isPresent()) {
      picture = picture + "-" + number + ".png";
      source = name + ", page " + number;
      WholeFile.copy(new ByteArrayInputStream(png.get()), file.resolveSibling(picture));
    }
    pages.accept(new Pages.NewPage(source, picture, width, height, flaw.map(Finding::text)));
  }

  @Override
  public void failed(Finding finding) {
    pages.accept(new Pages.NewPage(name, "", 1, 1, Optional.of(finding.text())));
  }
}
