package org.barmap.library.feed;

/** What other programs follow books by. */
public interface Feed {

  /** Hears what happened, when it is on disk. */
  interface Listener {

    /** A book has a new edition. */
    void edition(String book, Edition edition);

    /** There is something to send. */
    void queued();
  }

  /** Returns the editions of books. */
  Editions editions();

  /** Returns the web hooks. */
  Hooks hooks();

  /** Returns what is to be sent to them. */
  Outbox outbox();

  /** Listens until the returned handle is run. */
  Runnable listen(Listener listener);
}
