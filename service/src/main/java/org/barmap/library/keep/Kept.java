package org.barmap.library.keep;

import java.util.List;

/**
 * What is kept in a data folder.
 *
 * @param folder where
 * @param closed whether no other account of the machine can look into it
 * @param books how many books are on the shelf
 * @param binned how many are in the bin
 * @param database the store with all that was read, corrected and changed
 * @param pictures of pages, with uploads that wait to be opened, and scores
 * @param smaller pictures for the screen, made again whenever they are missing
 * @param setAside files that nothing names any more, which wait for a person
 * @param missing pictures that a page names and the disk does not have as they were kept
 */
public record Kept(
    String folder,
    boolean closed,
    int books,
    int binned,
    Amount database,
    Amount pictures,
    Amount smaller,
    Amount setAside,
    List<Missing> missing) {

  /** Takes a defensive copy. */
  public Kept {
    missing = List.copyOf(missing);
  }

  /**
   * How much that is.
   *
   * @param bytes on disk
   */
  public record Amount(int files, long bytes) {}

  /**
   * A picture that is not as it was kept.
   *
   * @param book its title and part
   * @param page where in the book
   * @param what is wrong, in words
   */
  public record Missing(String book, int page, String what) {}
}
