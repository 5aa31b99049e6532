package org.barmap.library.keep;

import java.io.IOException;

/** A data folder that is not opened as it is; the message says why and what to do. */
public final class RefusedFolderException extends IOException {

  private static final long serialVersionUID = 1;

  /** Makes it with whole sentences. */
  public RefusedFolderException(String message) {
    super(message);
  }
}
