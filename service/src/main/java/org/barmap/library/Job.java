package org.barmap.library;

import java.util.Locale;

/**
 * A book being read.
 *
 * @param id opaque
 * @param book id of the book
 * @param state how far it is
 * @param done pages read, or found unreadable
 * @param of pages in all, as far as known
 * @param text one line for the player
 * @param failures how often it failed and was put off
 */
public record Job(
    String id, String book, State state, int done, int of, String text, int failures) {

  /** How far a job is. */
  public enum State {
    /** Not begun. */
    WAITING,
    /** Under way, or broken off by a kill. */
    RUNNING,
    /** Done; some pages may have failed. */
    DONE,
    /** Given up. */
    FAILED;

    /** Returns the word used in JSON and in the store. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }
}
