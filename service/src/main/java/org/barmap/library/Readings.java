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

  /**
   * Puts a page that was photographed again into the place of the old one, which is put aside, and
   * carries the corrections over: one step of the history, whose line says what was lost.
   *
   * @param revision the revision the person saw
   * @param from what there is before it
   * @param old id of the page that goes aside
   * @param made id of the page of the new picture
   * @param fresh reading of the whole book with the one in the place of the other
   */
  Saved<Draft> retake(
      String book, long revision, Material from, String old, String made, BarMap fresh);
}
