package org.barmap.work;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.library.WholeFile;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Finding;
import org.barmap.map.Outline;
import org.barmap.page.PagePictures;
import org.barmap.sign.ReadPage;

/** Reads page pictures; behind it stands the extractor. */
public interface PageReader extends AutoCloseable {

  /**
   * What was read on one page of a picture.
   *
   * @param page what is on it; empty when it can't be read
   * @param findings what is wrong with it, for instance that it is blurred
   */
  record Result(Optional<ReadPage> page, List<Finding> findings) {

    /** Takes a defensive copy. */
    public Result {
      findings = List.copyOf(findings);
    }
  }

  /**
   * Counts the pages of a file, those inside a PDF or a TIFF among them.
   *
   * @return 1 for a file that can't be opened: it takes the place where it says why
   */
  default int count(Path file) {
    return PagePictures.count(file);
  }

  /**
   * Opens a file: the pictures of its pages lie beside it afterwards.
   *
   * @param name what the player calls it
   * @throws IOException when they can't be kept
   */
  default List<Pages.NewPage> open(Path file, String name) throws IOException {
    List<Pages.NewPage> pages = new ArrayList<>();
    FileOpening.open(file, name, 0, pages::add);
    return pages;
  }

  /**
   * Reads the pages on one picture: one, or two where it shows an opening.
   *
   * @param picture PNG or JPEG
   * @param source what the player calls the file
   * @param index the first page's index in the book
   * @throws PageLostException when it can't be read, with the reason
   * @throws ReadingStoppedException when it waits to be read again
   */
  List<Result> read(Path picture, String source, int index);

  /**
   * Reads a page with a line of music on it that a person drew a frame over.
   *
   * @param picture PNG or JPEG
   * @param page which page of a book it is, and which of the picture
   * @param frame pixels of the picture
   * @return empty when there is no such page on it, or it can't be read
   */
  default Optional<ReadPage> read(Path picture, PageCard page, Outline frame) {
    return Optional.empty();
  }

  /**
   * Makes a picture smaller.
   *
   * @param picture PNG or JPEG
   * @param width wanted, pixels; never larger than it is
   * @param to where the JPEG is kept, whole or not at all
   * @throws PageLostException when the picture can't be decoded, with the reason
   * @throws IOException when it can't be read or kept
   */
  default void scale(Path picture, int width, Path to) throws IOException {
    WholeFile.copy(new ByteArrayInputStream(PagePictures.scaled(picture, width)), to);
  }

  /** Settles what was read on all pages of a book into one map. */
  BarMap settle(Book book, List<ReadPage> pages);

  /** Gives up the page at hand, where that is possible; used from another thread. */
  default void skip() {}

  /** Breaks off the page at hand, where that is possible; nothing is read any more. */
  default void stop() {}

  @Override
  void close();
}
