package org.barmap.library;

import java.util.Optional;

/** What edits with a key of their own were answered, so that one sent again is not made again. */
public interface Replies {

  /**
   * An edit that was made.
   *
   * @param request what was sent, as a hash, and to which book; empty where it was taken back
   *     before it came
   * @param revision that came of it; 0 where it has none
   */
  record Reply(String request, long revision) {

    /** The edit was taken back before it came, and may never be made. */
    public static final Reply WITHDRAWN = new Reply("", 0);

    /** Tells whether it was taken back before it came. */
    public boolean isWithdrawn() {
      return request.isEmpty();
    }
  }

  /** Returns the reply to the edit with a key. */
  Optional<Reply> find(String key);

  /** Keeps a reply for 30 days. */
  void keep(String key, Reply reply);

  /**
   * Keeps an edit that was not made from being made later.
   *
   * @return the reply to it where it was made
   */
  Optional<Reply> withdraw(String key);
}
