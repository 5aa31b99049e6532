package org.barmap.library.turn;

/**
 * Gives books their turns, in as many processes as have the store open: a book is with one of them
 * at a time, and the one that waits longest comes first. Whoever has one says again and again that
 * he is there; of one who does not, the book is given to others.
 */
public interface Turns {

  /** Does the steps. */
  interface Taker {

    /**
     * Does one step of a book.
     *
     * @throws Turn.FailedException when it failed and that is noted; anything else that is thrown
     *     says nothing of the book, and the step is tried again soon
     */
    Turn.End take(Turn turn);

    /** Called every few seconds, whether or not there is something to do, beside a turn. */
    default void meanwhile() {}
  }

  /** Somebody's place at the head of the row. */
  interface Place extends AutoCloseable {

    /**
     * Takes the turn of the first book here and now; for who is alone and does not begin.
     *
     * @return false when none waits
     */
    boolean one();

    /** Begins to take turns in a thread of its own. */
    void begin();

    /** Tells whether turns are taken in a thread. */
    boolean isAtWork();

    /** Takes no further turn. */
    void stop();

    /** Stops, and waits for the turn at hand however long that takes and whoever interrupts. */
    @Override
    void close();
  }

  /** Gives somebody a place. */
  Place join(Taker taker);

  /** Says to all who are at work in this process that a book may have come into the row. */
  void wake();
}
