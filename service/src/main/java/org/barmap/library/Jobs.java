package org.barmap.library;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;

/** The queue of books to read; it lives in the store, so it goes on after a restart. */
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

  /** For so long a job stays with a worker that does not say that it is still at it. */
  Duration LEASE = Duration.ofSeconds(6);

  /**
   * Gives a worker the next job that is not finished, not put off and with nobody else, nor another
   * one of its book. Those that had fewer turns come first, of these one that was broken off, then
   * the oldest; those that failed come after all others.
   *
   * @param worker an id of its own
   */
  Optional<Job> take(String worker);

  /** Says that a worker is still at a job; false when somebody else has it now. */
  boolean keep(String job, String worker);

  /** Lets go of a job, so that anybody may take it; nothing happens when somebody else has it. */
  void leave(String job, String worker);

  /** Tells whether a job of another book waits that has had no more turns than this one. */
  boolean othersWait(String job);

  /** Notes that a job had its turn. */
  void hadTurn(String job);

  /** Returns the files of a job that still wait to be opened. */
  List<Upload> uploads(String job);

  /** Returns how many files of a book wait to be opened, in whatever job. */
  int waiting(String book);

  /** Notes how far a job is; returns it. */
  Job progress(String job, int done, int of, String text);

  /** Notes the end of a job; returns it. */
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
