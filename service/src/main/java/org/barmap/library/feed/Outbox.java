package org.barmap.library.feed;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;

/** What is to be sent to web hooks; it lives in the store, so it goes on after a restart. */
public interface Outbox {

  /**
   * Something to send now.
   *
   * @param secret what is signed with
   */
  record Sending(Delivery delivery, Hook hook, String secret) {}

  /** Lets what a kill broke off be sent again; to be called before anything is sent. */
  void takeUpAgain();

  /**
   * Takes what is to be sent next: of each hook that is on and not in a pause the oldest, so that
   * nothing overtakes; of those the one that waits longest. What is being sent is passed over with
   * all behind it, unless whoever sent it has said nothing for some minutes.
   */
  Optional<Sending> next();

  /** Says that it arrived. */
  void arrived(Sending sent, String answer);

  /**
   * What came of a try that failed.
   *
   * @param answer a few words
   * @param pause until this hook is tried again
   * @param givenUp whether this delivery is given up; the next one is sent after the pause
   * @param off why nothing is sent to this hook any more; empty to go on
   */
  record Failure(String answer, Duration pause, boolean givenUp, Optional<String> off) {}

  /** Says that it did not arrive. */
  void failed(Sending sent, Failure failure);

  /**
   * Returns when the first hook may be sent something that waits; now or earlier, or later. Hooks
   * that something is being sent to don't count.
   */
  Optional<Instant> due();
}
