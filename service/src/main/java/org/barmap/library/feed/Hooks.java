package org.barmap.library.feed;

import java.util.List;
import java.util.Optional;

/** Web hooks, and what they are told. */
public interface Hooks {

  /** So many may be registered in all. */
  int MOST = 50;

  /** So many of one book: who owns it by a link takes no room from the others. */
  int MOST_OF_BOOK = 10;

  /** So many of what a hook was told are kept once they arrived, and as many that were given up. */
  int MOST_KEPT = 100;

  /** Returns those of a book, or those of all books; oldest first. */
  List<Hook> of(Optional<String> book);

  /** Returns one. */
  Optional<Hook> find(String id);

  /**
   * Registers one.
   *
   * @param book whose; empty for all books
   * @param secret what is signed with
   * @return empty when there are too many already
   */
  Optional<Hook> add(Optional<String> book, String address, String secret, List<Told> events);

  /** Removes one with all it is told. */
  boolean remove(String id);

  /**
   * Turns one on, which begins sending at once, or off, with why; false when it is gone, or has no
   * secret to sign with since it came back from a backup.
   */
  boolean turn(String id, Optional<String> off);

  /** Returns what a hook is told: the newest first. */
  List<Delivery> deliveries(String hook);

  /** Sends something again that was given up, or that arrived; false when there is none. */
  boolean again(String hook, String delivery);

  /** Sends something by which the owner sees whether it arrives. */
  void tryOut(String hook, Optional<String> book);
}
