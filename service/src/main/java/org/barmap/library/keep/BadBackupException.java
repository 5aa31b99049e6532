package org.barmap.library.keep;

import java.io.IOException;

/** A file that can't be put back; the message says why. Nothing was changed. */
public final class BadBackupException extends IOException {

  private static final long serialVersionUID = 1;

  /** Makes it with a sentence. */
  public BadBackupException(String message) {
    super(message);
  }
}
