package org.barmap.library.live;

import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import java.util.Set;
import java.util.stream.Stream;

/** Tells the failures that are over when the store answers again. */
public final class Away {

  /**
   * Of SQLSTATE (ISO/IEC 9075): the connection; it was the server's to end it; too many of them.
   */
  private static final Set<String> CLASSES = Set.of("08", "57");

  /**
   * As PostgreSQL's manual lists them: connections, a lock waited for too long, two in a circle.
   */
  private static final Set<String> STATES = Set.of("53300", "55P03", "40P01", "40001");

  private Away() {}

  /** Tells whether a failure is that the store can't be reached, ended us, or answers too late. */
  public static boolean is(Throwable failure) {
    return Stream.iterate(failure, t -> t != null, Throwable::getCause).anyMatch(Away::isOne);
  }

  private static boolean isOne(Throwable t) {
    if (t instanceof SQLTransientConnectionException) {
      return true;
    }
    String state = t instanceof SQLException e ? String.valueOf(e.getSQLState()) : "";
    return STATES.contains(state) || state.length() == 5 && CLASSES.contains(state.substring(0, 2));
  }
}
