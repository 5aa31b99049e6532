package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.jdbc.JdbcCustomization;
import com.github.kagkarlsson.scheduler.jdbc.PostgreSqlJdbcCustomization;
import com.github.kagkarlsson.scheduler.jdbc.SqliteJdbcCustomization;
import java.time.Duration;

/** How a kind of store is looked at. */
public enum Pace {
  /**
   * A file that one process has open. Nobody can be gone without it being gone; what is given back
   * after a while is a turn whose end could not be written, on a full disk.
   */
  ALONE(
      new SqliteJdbcCustomization(),
      false,
      Duration.ofMillis(2500),
      Duration.ofSeconds(10),
      Duration.ZERO),

  /**
   * A database of many. Who is silent for four beats is gone, which is looked for every second
   * beat: four to six seconds.
   */
  SHARED(
      new PostgreSqlJdbcCustomization(false, false),
      true,
      Duration.ofSeconds(1),
      Duration.ofSeconds(2),
      Duration.ofSeconds(5));

  /** The least the library takes. */
  static final int SILENT_BEATS = 4;

  final JdbcCustomization database;
  final boolean locksAndFetches;
  final Duration beat;

  /** Who idles looks so often; a job that is added here or heard of wakes him at once. */
  final Duration look;

  private final Duration trusted;

  Pace(
      JdbcCustomization database,
      boolean locksAndFetches,
      Duration beat,
      Duration look,
      Duration trusted) {
    this.database = database;
    this.locksAndFetches = locksAndFetches;
    this.beat = beat;
    this.look = look;
    this.trusted = trusted;
  }

  /** Returns for how long a process counts the time itself before it asks the store again. */
  public Duration trusted() {
    return trusted;
  }
}
