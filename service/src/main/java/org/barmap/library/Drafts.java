package org.barmap.library;

import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.kind.Correction;
import org.barmap.edit.kind.ReadLine;

/** The maps of books as they stand, and the history of their corrections. */
public interface Drafts {

  /** Returns a book's draft; empty when there is no such book. */
  Optional<Versioned<Draft>> find(String book);

  /**
   * Makes a correction.
   *
   * @param revision the revision the person saw
   * @param who who corrects; may be empty
   */
  Saved<Draft> correct(String book, long revision, String who, Correction correction);

  /**
   * Adds a line of music with what was read in its frame, as one step of the history.
   *
   * @param revision the revision the person saw
   * @param who who drew the frame; may be empty
   */
  Saved<Draft> readLine(String book, long revision, String who, ReadLine line);

  /** Takes the latest correction back. */
  Saved<Draft> undo(String book, long revision);

  /** Makes the correction again that was taken back last. */
  Saved<Draft> redo(String book, long revision);

  /** Returns the history of corrections. */
  History history(String book);
}
