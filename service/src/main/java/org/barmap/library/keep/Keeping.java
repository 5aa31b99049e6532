package org.barmap.library.keep;

import java.io.IOException;
import java.util.List;
import java.util.Optional;

/** The care of the data folder as a whole. */
public interface Keeping {

  /** Returns what was found or done at the start that a person should know, one sentence each. */
  List<String> notices();

  /** Returns what is kept where at this moment; it looks at every file. */
  Kept kept();

  /** Returns how much was set aside at starts and is still there. */
  Kept.Amount setAside();

  /** Returns after how many days in the bin a book goes for good; empty until a person says so. */
  Optional<Integer> binDays();

  /** Sets after how many days in the bin a book goes for good; empty for never by itself. */
  void setBinDays(Optional<Integer> days);

  /**
   * Removes every book in the bin for good and gives the space in the store back.
   *
   * @return how many they were
   */
  int emptyBin();

  /** Deletes what was set aside at starts. */
  void deleteSetAside() throws IOException;
}
