package org.barmap.library;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.barmap.library.turn.Turns;

/**
 * What is to be read of books; it lives in the store, so it goes on after a restart. When a book
 * with an open job is gone on with is said by {@link Turns}.
 */
public interface Jobs {

  /**
   * An uploaded file that waits to be opened.
   *
   * @param id opaque
   * @param name as given by the player
   * @param file where it lies in the book's folder
   */
  record Upload(String id, String name, Path file) {}

  /** Queues uploaded files; they already lie in the book's folder under these names. */
  Job add(String book, List<Upload> uploads);

  /** Queues a book whose pages wait to be read again. */
  Job add(String book);

  /**
   * Returns the job of a book that is to be gone on with: not finished, not put off, the book not
   * in the bin. One that failed comes after the others, else the oldest first.
   */
  Optional<Job> next(String book);

  /** Returns the files of a job that still wait to be opened. */
  List<Upload> uploads(String job);

  /** Returns how many files of a book wait to be opened, in whatever job. */
  int waiting(String book);

  /** Notes how far a job is, unless it has come to its end; returns it. */
  Job progress(String job, int done, int of, String text);

  /** Notes the end of a job, unless it has come to one; returns it. */
  Job finish(String job, Job.State state, String text);

  /**
   * Counts a failure of a job and puts it off.
   *
   * @param pause until it may be tried again
   * @return empty when the job went with its book
   */
  Optional<Job> putOff(String job, Duration pause, String text);

  /** Counts another beginning of a job and returns how many there were since it got on last. */
  int begin(String job);

  /**
   * How many jobs there are of books that are not in the bin.
   *
   * @param failed given up, unless the book was read again later
   */
  record Counts(int waiting, int running, int failed) {
    /** Returns how many that are together. */
    public int all() {
      return waiting + running + failed;
    }
  }

  /** Returns how many jobs there are. */
  Counts counts();

  /** Returns the job a book is in, or was in last. */
  Optional<Job> latest(String book);
}
