package org.barmap.library.picture;

import java.io.IOException;

/** The store of pictures does not answer, or not as it should: what is in it may be all right. */
public final class StoreAwayException extends IOException {

  private static final long serialVersionUID = 1;

  /** Makes one. */
  public StoreAwayException(String message, Throwable cause) {
    super(message, cause);
  }
}
