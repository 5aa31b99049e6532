package org.barmap.library;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import tools.jackson.databind.node.ObjectNode;

/** The show changes of books, as {@code changes/1} objects, and their history. */
public interface Changes {

  /** Returns a book's changes in the order they were made; empty when there is no such book. */
  Optional<Versioned<List<ObjectNode>>> find(String book);

  /**
   * Returns a book's changes as they stood at a moment. A step that was taken back and made again
   * counts as never taken back.
   */
  List<ObjectNode> at(String book, Instant moment);

  /**
   * Adds changes as they are, with their ids, dates and authors, in one step; one whose id is taken
   * gets another.
   */
  Saved<List<ObjectNode>> take(String book, long revision, List<ObjectNode> changes);

  /** Adds a change; it gets an id, a date and its author. */
  default Saved<List<ObjectNode>> add(String book, long revision, String who, ObjectNode change) {
    return add(book, revision, who, List.of(change));
  }

  /** Adds changes in one step; each gets an id, a date and its author. */
  Saved<List<ObjectNode>> add(String book, long revision, String who, List<ObjectNode> changes);

  /** Puts other values into a change. */
  Saved<List<ObjectNode>> patch(
      String book, long revision, String who, String id, ObjectNode values);

  /** Takes a change away. */
  Saved<List<ObjectNode>> remove(String book, long revision, String who, String id);

  /** Takes the latest step back. */
  Saved<List<ObjectNode>> undo(String book, long revision);

  /** Makes the step again that was taken back last. */
  Saved<List<ObjectNode>> redo(String book, long revision);

  /** Returns the history of steps. */
  History history(String book);

  /** Returns the marks that stand in the book in pencil: written, and not erased yet. */
  List<ObjectNode> written(String book);

  /**
   * Says that a mark was written, or that it does not stand there any more.
   *
   * @param mark a mark of the pencil list; what is at its {@code bar} and is a {@code mark} of this
   *     kind is one
   */
  List<ObjectNode> tick(String book, ObjectNode mark, boolean written);
}
