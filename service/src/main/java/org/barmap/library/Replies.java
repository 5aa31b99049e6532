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

  /** An edit was taken back, or made, somewhere else at this moment: it is not made here. */
  final class TakenException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** Makes one. */
    public TakenException() {
      super("an edit with this key is just being made, or taken back");
    }
  }

  /**
   * Says that what this thread changes from now on is the edit with a key. A step on a map, on the
   * changes, the marks, the settings or the bin keeps the key in its own transaction, so that
   * whether it was made is known from that moment on; it ends with {@link TakenException} where the
   * key is taken by then. Of other edits {@link #keep} says it.
   *
   * @param request what was sent, as {@link Reply#request}
   */
  void begin(String key, String request);

  /** Says that what this thread changes is no edit with a key any more. */
  void end();

  /** Returns the reply to the edit with a key. */
  Optional<Reply> find(String key);

  /** Keeps a reply for 30 days; one that was kept along with its edit gets this revision. */
  void keep(String key, Reply reply);

  /**
   * Keeps an edit that was not made from being made later.
   *
   * @return the reply to it where it was made
   */
  Optional<Reply> withdraw(String key);
}
