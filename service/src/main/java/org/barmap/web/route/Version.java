package org.barmap.web.route;

import java.util.Optional;

/** The version of the program. */
public final class Version {

  private Version() {}

  /** Returns the version the jar was built as, or "from source". */
  public static String text() {
    return Optional.ofNullable(Version.class.getPackage().getImplementationVersion())
        .orElse("from source");
  }
}
