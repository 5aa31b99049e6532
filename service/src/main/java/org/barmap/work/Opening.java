package org.barmap.work;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.Pages;
import org.barmap.library.WholeFile;
import org.barmap.map.Finding;
import org.barmap.page.PagePictures;

/** Makes page pictures out of an uploaded file. */
final class Opening implements PagePictures.Taker {

  private final Library library;
  private final String book;
  private final Path folder;
  private final List<Pages.NewPage> pages = new ArrayList<>();
  private String name = "";
  private String picture = "";
  private boolean keepsFile;

  Opening(Library library, String book) {
    this.library = library;
    this.book = book;
    this.folder = library.pages().folder(book);
  }

  /** Opens the file; its pages are in the book when this returns, all of them or none. */
  void open(Jobs.Upload upload) throws IOException {
    name = upload.name();
    picture = String.valueOf(upload.file().getFileName());
    PagePictures.expand(upload.file(), name, this);
    library.pages().add(book, pages, Optional.of(upload.id()));
    if (!keepsFile) {
      Files.deleteIfExists(upload.file());
    }
  }

  @Override
  public void page(int number, Optional<byte[]> png, int width, int height) throws IOException {
    String file = picture;
    String source = name;
    if (png.isPresent()) {
      file = picture + "-" + number + ".png";
      source = name + ", page " + number;
      WholeFile.copy(new ByteArrayInputStream(png.get()), folder.resolve(file));
    } else {
      keepsFile = true;
    }
    pages.add(new Pages.NewPage(source, file, width, height, Optional.empty()));
  }

  @Override
  public void failed(Finding finding) {
    pages.add(new Pages.NewPage(name, "", 1, 1, Optional.of(finding.text())));
  }
}
