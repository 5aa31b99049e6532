package org.barmap.library;

import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.map.BarMap;

/**
 * The one door through which a new reading of a whole book gets into its draft. Computing one takes
 * a while, in which pages come and go; so it is stored only while it is still computed from what
 * there is, compared in the transaction that stores it.
 */
public interface Readings {

  /** Returns what the reading of a book is computed from now. */
  Material material(String book);

  /**
   * Lays a reading of the whole book under what people have set.
   *
   * @param from what it was computed from
   * @return stale when that is not what there is any more; compute it again then
   */
  Saved<Draft> lay(String book, Material from, BarMap fresh);

  /**
   * The same along with another second reading, or none, for a person who asked for it; there is no
   * line in the history.
   *
   * @param revision the revision the person saw
   * @param from what it was computed from, but for the second reading
   * @param fresh empty while nothing is read
   */
  Saved<Draft> laySecond(
      String book,
      long revision,
      Material from,
      Optional<SecondCard> second,
      Optional<BarMap> fresh);
}
