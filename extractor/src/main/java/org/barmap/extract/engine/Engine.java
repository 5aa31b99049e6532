package org.barmap.extract.engine;

import java.nio.file.Path;
import java.util.List;

/**
 * Another reader of music: pages in, MusicXML out. What it says is evidence beside our own reading
 * of the same pages, never taken as true.
 *
 * <p>A jar in the folder {@code plugins} beside the program names its implementation in {@code
 * META-INF/services/org.barmap.extract.engine.Engine}; it needs a public constructor without
 * arguments. It runs in a process of its own, once for a book, and may be ended at any time.
 */
public interface Engine {

  /**
   * Reads a book.
   *
   * @param pages PNG files of 8-bit gray, upright, one for each page in the order of the book;
   *     {@code page-0001.png} and so on. A staff space has some 11 to 22 pixels
   * @param out an empty folder. It takes MusicXML (score-partwise) as {@code .musicxml}, {@code
   *     .xml} or {@code .mxl}: one file, or several that follow each other in the order of their
   *     names, such as one a page
   * @throws Exception when it can't read them; its message is shown to the player
   */
  void read(List<Path> pages, Path out) throws Exception;
}
