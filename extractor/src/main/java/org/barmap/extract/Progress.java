package org.barmap.extract;

import java.util.List;
import org.barmap.map.Finding;

/** Follows the reading of a book and may stop it; called on the reading thread. */
public interface Progress {

  /** Nobody watches. */
  Progress NONE = (done, of, source, findings) -> {};

  /**
   * A page was read or given up.
   *
   * @param done pages done so far
   * @param of pages known of so far; grows while files of several pages are opened
   * @param source file name of the page
   * @param findings what is wrong with this page; empty when it was read
   */
  void page(int done, int of, String source, List<Finding> findings);

  /** Tells whether to stop before the next page; what was read until then is kept. */
  default boolean cancelled() {
    return false;
  }
}
