package org.barmap.bench;

import java.io.IOException;

/**
 * What follows one click of a person, from the door it goes in by until its answer is there. The
 * door is the implementer's: {@link LibraryClicks} calls the library in this process; what calls a
 * running server is measured by the same rounds.
 */
interface Click extends AutoCloseable {

  /**
   * Does it once.
   *
   * @param round which time; negative while warming up
   */
  void once(int round) throws IOException;

  @Override
  void close() throws IOException;
}
