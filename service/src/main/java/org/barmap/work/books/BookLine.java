package org.barmap.work.books;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Optional;

/**
 * What became of a book; a line of the report.
 *
 * @param book its name
 * @param state what was done
 * @param pages read
 * @param bars as they count, those in long rests too
 * @param doubts that a player is asked
 * @param seconds that reading took, over all runs
 * @param map where its map lies, below the folder of maps; absent when it has none
 * @param failures one sentence for each page or file that can't be read
 */
@JsonInclude(JsonInclude.Include.NON_ABSENT)
public record BookLine(
    String book,
    State state,
    int pages,
    int bars,
    int doubts,
    double seconds,
    Optional<String> map,
    List<String> failures) {

  /** What was done. */
  public enum State {
    /** Read, all or what was left of it. */
    READ,
    /** Was read before and has not changed since. */
    UNCHANGED,
    /** Has no map. */
    FAILED
  }

  /** Takes a defensive copy. */
  public BookLine {
    failures = List.copyOf(failures);
  }

  static BookLine failed(FoundBook book, List<String> failures, double seconds) {
    return new BookLine(book.name(), State.FAILED, 0, 0, 0, seconds, Optional.empty(), failures);
  }

  BookLine unchanged() {
    return new BookLine(book, State.UNCHANGED, pages, bars, doubts, seconds, map, failures);
  }
}
