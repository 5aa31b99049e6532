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
    int inBook = library.pages().all(book).size();
    int inFile = PagePictures.count(upload.file());
    if (inBook + inFile > PagePictures.MAX_PAGES) {
      refuse(inFile, inBook);
    } else {
      PagePictures.expand(upload.file(), name, this);
    }
    library.pages().add(book, pages, Optional.of(upload.id()));
    if (!keepsFile) {
      Files.deleteIfExists(upload.file());
    }
  }

  /** The file came while others of the book were not open yet. */
  private void refuse(int inFile, int inBook) {
    String text =
        "%s has %d pages, the book has %d already; at most %d fit into one. Split it."
            .formatted(name, inFile, inBook, PagePictures.MAX_PAGES);
    pages.add(new Pages.NewPage(name, "", 1, 1, Optional.of(text)));
  }

  @Override
  public void page(int number, Optional<byte[]> png, int width, int height, Optional<Finding> flaw)
      throws IOException {
    String file = picture;
    String source = name;
    if (png.isPresent()) {
      file = picture + "-" + number + ".png";
      source = name + ", page " + number;
      WholeFile.copy(new ByteArrayInputStream(png.get()), folder.resolve(file));
    } else {
      keepsFile = true;
    }
    pages.add(new Pages.NewPage(source, file, width, height, flaw.map(Finding::text)));
  }

  @Override
  public void failed(Finding finding) {
    pages.add(new Pages.NewPage(name, "", 1, 1, Optional.of(finding.text())));
  }
}
