package org.barmap.web.access;

/** What came of showing a key. */
public sealed interface Seen {

  /** It is good. */
  record Known(Who who) implements Seen {}

  /** It was one until it ended, by itself or by a person. */
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
