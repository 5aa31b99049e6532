package org.barmap.library.picture;

import java.io.IOException;

/** A picture is not as it was kept. */
public final class DamagedPictureException extends IOException {

  private static final long serialVersionUID = 1;

  /** Makes one. */
  public DamagedPictureException(String message) {
    super(message);
  }
}
