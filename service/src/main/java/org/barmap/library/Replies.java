package org.barmap.library;

import java.util.Optional;

/** What edits with a key of their own were answered, so that one sent again is not made again. */
public interface Replies {

  /**
   * An edit that was made.
   *
   * @param request what was sent, as a hash
   * @param revision that came of it; 0 where it has none
   */
  record Reply(String request, long revision) {}

  /** Returns the reply to the edit with a key. */
  Optional<Reply> find(String key);

  /** Keeps a reply for 30 days. */
  void keep(String key, Reply reply);
}
