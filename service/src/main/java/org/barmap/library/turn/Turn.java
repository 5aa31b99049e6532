package org.barmap.library.turn;

import java.util.function.BooleanSupplier;

/**
 * The turn of a book at somebody.
 *
 * @param book its id
 * @param lost tells whether somebody else may have it by now, because nothing was heard of this one
 */
public record Turn(String book, BooleanSupplier lost) {

  /** Tells whether somebody else may have it by now; nothing more is to be begun then. */
  public boolean isLost() {
    return lost.getAsBoolean();
  }

  /** How a turn ended. */
  public enum End {
    /** A step was done, or there was none to do: others go first. */
    DONE,
    /** Not begun or broken off, since the program ends: whoever is free goes on with it at once. */
    HANDED_BACK
  }

  /** A step failed; what follows from that is noted with the job. */
  public static final class FailedException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** Makes it of what failed. */
    public FailedException(Throwable cause) {
      super(cause);
    }
  }
}
