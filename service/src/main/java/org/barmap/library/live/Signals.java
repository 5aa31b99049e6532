package org.barmap.library.live;

/**
 * Short messages between the processes that have a store open. They are for liveliness only: one
 * that is lost loses nothing that is kept.
 */
public interface Signals {

  /** What is heard when messages may have been missed, because the line was down. */
  String GAP = "gap";

  /** For a store that one process has open alone: there is nobody to tell. */
  Signals ALONE =
      new Signals() {
        @Override
        public boolean isShared() {
          return false;
        }

        @Override
        public boolean wasAlone() {
          return true;
        }

        @Override
        public void send(String topic, String text) {
          // nobody hears it
        }

        @Override
        public void hear(String topic, Listener listener) {
          // nobody says anything
        }
      };

  /** Hears what other processes say. */
  @FunctionalInterface
  interface Listener {

    /** Takes a message; what it throws is logged. */
    void hear(String text);
  }

  /** Tells whether other processes may have the store open. */
  boolean isShared();

  /** Tells whether nobody else had the store open when this process came. */
  boolean wasAlone();

  /**
   * Tells the other processes something, if it can be told now; never fails.
   *
   * @param topic a word
   * @param text up to 7,000 bytes
   */
  void send(String topic, String text);

  /** Hears what other processes say from now on, never what this one says. */
  void hear(String topic, Listener listener);
}
