package org.barmap.library;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.barmap.map.BarMap;

/** The pages of books. */
public interface Pages {

  /**
   * A page to be added.
   *
   * @param source name of the file it came from
   * @param picture name of its picture in the book's folder
   * @param width pixels
   * @param height pixels
   * @param part 1 for the first page on its picture
   */
  record NewPage(String source, String picture, int width, int height, int part) {}

  /** Returns a book's pages in their order. */
  List<PageCard> all(String book);

  /** Returns a page. */
  Optional<PageCard> find(String book, String page);

  /** Adds pages at the end, waiting to be read; returns them. */
  List<PageCard> add(String book, List<NewPage> pages);

  /** Adds a page right behind another one, as the second page of an opening. */
  PageCard addBehind(String book, String page, NewPage added);

  /** Adds the note of a file that gave no page, at the end. */
  PageCard addFailed(String book, String source, String finding);

  /** Takes a page out, with what was read and corrected on it; false when there is none. */
  boolean remove(String book, String page);

  /** Puts the pages in another order; false when the list is not exactly the book's pages. */
  boolean order(String book, List<String> pages);

  /** Notes that the reading of a page begins. */
  void begin(String page);

  /** Notes what was read on a page: a map of one page. */
  void read(String page, BarMap reading, Optional<Double> blur);

  /** Notes that a page can't be read, and why. */
  void fail(String page, String finding);

  /** Lets a page be read again; false when there is none. */
  boolean again(String book, String page);

  /** Returns what was read on a page. */
  Optional<BarMap> reading(String page);

  /** Returns the file of a page's picture. */
  Path picture(String book, PageCard page);

  /** Returns the book's own folder for pictures; it exists. */
  Path folder(String book);

  /** Returns the store's folder for pictures made smaller; anything in it may be deleted. */
  Path cache();
}
