package org.barmap.work;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.Pages;
import org.barmap.page.PagePictures;

/** Puts the pages of an uploaded file into a book. */
record Opening(Library library, PageReader reader, String book) {

  /** Opens the file; its pages are in the book when this returns, all of them or none. */
  void open(Jobs.Upload upload) throws IOException {
    library.pages().kept(book, String.valueOf(upload.file().getFileName()));
    int inBook = library.pages().all(book).size();
    int inFile = reader.count(upload.file());
    List<Pages.NewPage> pages =
        inBook + inFile > PagePictures.MAX_PAGES
            ? List.of(refused(upload.name(), inFile, inBook))
            : reader.open(upload.file(), upload.name());
    library.pages().add(book, pages, Optional.of(upload.id()));
    String own = String.valueOf(upload.file().getFileName());
    if (pages.stream().noneMatch(p -> p.picture().equals(own))) {
      library.pages().drop(book, own);
    }
  }

  /** The file came while others of the book were not open yet. */
  private static Pages.NewPage refused(String name, int inFile, int inBook) {
    String text =
        "%s has %d pages, the book has %d already; at most %d fit into one. Split it."
            .formatted(name, inFile, inBook, PagePictures.MAX_PAGES);
    return new Pages.NewPage(name, "", 1, 1, Optional.of(text));
  }
}
