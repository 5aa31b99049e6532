package org.barmap.web.share;

/** What came of showing a key. */
public sealed interface Seen {

  /** It opens a book. */
  record Known(Guest guest) implements Seen {}

  /** It was one until sharing was ended. */
  record Ended() implements Seen {}

  /** It never was one. */
  record Wrong() implements Seen {}

  /**
   * Too many wrong ones came from there; this one was not looked at.
   *
   * @param seconds to wait, at least 1
   */
  record Slowed(long seconds) implements Seen {}
}
