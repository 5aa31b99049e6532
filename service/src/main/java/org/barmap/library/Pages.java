package org.barmap.library;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;

/** The pages of books. */
public interface Pages {

  /**
   * A page to be added.
   *
   * @param source name of the file it came from
   * @param picture name of its picture in the book's folder; empty when there is none
   * @param width pixels
   * @param height pixels
   * @param finding why it can't be read; with a picture, what was left out of it
   */
  record NewPage(String source, String picture, int width, int height, Optional<String> finding) {}

  /** Returns a book's pages in their order. */
  List<PageCard> all(String book);

  /** Returns a page. */
  Optional<PageCard> find(String book, String page);

  /**
   * Adds pages at the end, waiting to be read unless they have no picture; returns them.
   *
   * @param upload the uploaded file they come from, which then no longer waits to be opened
   */
  List<PageCard> add(String book, List<NewPage> pages, Optional<String> upload);

  /**
   * Adds a page right behind another one: a further page on the same picture.
   *
   * @return empty when the page is not there any more
   */
  Optional<PageCard> addPart(String book, String page, int part);

  /**
   * Takes a page out, with what was read and corrected on it, and its pictures off the disk.
   *
   * @param revision of the draft the person saw
   * @return refused when there is no such page
   */
  Saved<Draft> remove(String book, long revision, String page);

  /**
   * Takes the pictures of all pages off the disk, with the smaller ones and those of pages that
   * were photographed again; what was read and corrected stays.
   *
   * @param revision of the draft the person saw
   * @return refused while pages wait to be read
   */
  Saved<Draft> removePictures(String book, long revision);

  /**
   * Puts the pages in another order.
   *
   * @param revision of the draft the person saw
   * @return refused when the list is not exactly the book's pages
   */
  Saved<Draft> order(String book, long revision, List<String> pages);

  /** Notes that the reading of a page begins. */
  void begin(String page);

  /**
   * Notes what was read on a page.
   *
   * @param reading as the reader writes it
   * @param finding what is wrong with the page though it could be read, if anything
   */
  void read(String page, String reading, Optional<String> finding);

  /** Notes that a page can't be read, and why. */
  void fail(String page, String finding);

  /**
   * Queues a page to be read again, and with it the others on its picture, which is read as a
   * whole. The draft stays as it is until then.
   *
   * @param revision of the draft the person saw
   * @return refused when there is no such page, or no picture of it
   */
  Saved<Draft> again(String book, long revision, String page);

  /** Returns what was read on a page, as the reader wrote it. */
  Optional<String> reading(String page);

  /** Tells whether pictures can be kept at this moment. */
  boolean isReady();

  /** Tells whether pictures are kept elsewhere than in the folder of the service. */
  boolean isElsewhere();

  /**
   * Keeps a file that lies in the folder of its book, before anything names it.
   *
   * @throws java.io.UncheckedIOException when it can't be kept now
   */
  void keep(String book, Path file);

  /**
   * Returns a file of a book to be read; where files are kept elsewhere it is brought first.
   *
   * @throws java.io.UncheckedIOException when it can't be brought
   */
  Path kept(String book, String file);

  /** Removes a file of a book that nothing names any more, at the latest at the next sweep. */
  void drop(String book, String file);

  /** Returns the file of a page's picture, as {@link #kept} does. */
  Path picture(String book, PageCard page);

  /** Returns the book's own folder for pictures; it exists. */
  Path folder(String book);

  /**
   * Returns the store's folder for pictures made smaller, each called {@code PAGE-WIDTH.jpg};
   * anything in it may be deleted.
   */
  Path cache();
}
