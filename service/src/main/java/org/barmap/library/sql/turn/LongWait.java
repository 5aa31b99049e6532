package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.jdbc.JdbcCustomization;
import com.github.kagkarlsson.scheduler.jdbc.JdbcTaskRepository;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.util.Comparator;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import javax.sql.DataSource;

/**
 * Gives every tenth turn of a process to the book that has waited longest behind a {@link
 * HeadStart} of others: while short books keep coming a long one is read nevertheless, more slowly.
 * Those that need few turns only come first anyway: however long they wait, they hold up nobody.
 */
final class LongWait {

  private static final System.Logger LOG = System.getLogger(LongWait.class.getName());

  private static final int EVERY = 10;

  private static final String TABLE = JdbcTaskRepository.DEFAULT_TABLE_NAME;

  private static final String FIRST =
      "select task_instance, execution_time from "
          + TABLE
          + " where picked = ? and execution_time > ? and execution_time <= ?"
          + " order by execution_time limit 1";

  private static final String FORWARD =
      "update " + TABLE + " set execution_time = ? where task_instance = ? and picked = ?";

  private static final Comparator<Waiting> LONGEST = Comparator.comparing(Waiting::time);

  private final DataSource source;
  private final JdbcCustomization database;
  private final AtomicInteger turns = new AtomicInteger();

  LongWait(DataSource source, Pace pace) {
    this.source = source;
    this.database = pace.database;
  }

  private record Waiting(String book, Duration time) {}

  /**
   * Counts a turn that ends. At each tenth one book is put before all others, in a statement of its
   * own that holds no other row. What comes of the turn that ends does not hang on it.
   */
  void turn(Instant now) {
    if (turns.incrementAndGet() % EVERY != 0) {
      return;
    }
    try (Connection connection = source.getConnection()) {
      Optional<Waiting> longest = longest(connection, now);
      if (longest.isPresent()) {
        bringForward(connection, longest.get(), now);
      }
    } catch (SQLException e) {
      LOG.log(System.Logger.Level.WARNING, "no book that waits long could be brought forward", e);
    }
  }

  /** Of the first of each kind but those of few turns; none while one is brought forward. */
  private Optional<Waiting> longest(Connection connection, Instant now) throws SQLException {
    if (first(connection, Instant.EPOCH, HeadStart.front(now)).isPresent()) {
      return Optional.empty();
    }
    Instant few = HeadStart.FEW.last(now);
    Instant some = HeadStart.SOME.last(now);
    return Stream.of(first(connection, few, some), first(connection, some, now))
        .flatMap(Optional::stream)
        .max(LONGEST);
  }

  /** Returns the first one that is free of those who stand after a moment, up to another. */
  private Optional<Waiting> first(Connection connection, Instant after, Instant to)
      throws SQLException {
    try (PreparedStatement select = connection.prepareStatement(FIRST)) {
      select.setBoolean(1, false);
      database.setInstant(select, 2, after);
      database.setInstant(select, 3, to);
      try (ResultSet rows = select.executeQuery()) {
        if (!rows.next()) {
          return Optional.empty();
        }
        Instant at = database.getInstant(rows, "execution_time");
        return Optional.of(new Waiting(rows.getString("task_instance"), Duration.between(at, to)));
      }
    }
  }

  /** Leaves its version as it is: whoever picks it at this very moment has it nevertheless. */
  private void bringForward(Connection connection, Waiting longest, Instant now)
      throws SQLException {
    try (PreparedStatement update = connection.prepareStatement(FORWARD)) {
      database.setInstant(update, 1, HeadStart.front(now));
      update.setString(2, longest.book());
      update.setBoolean(3, false);
      update.executeUpdate();
    }
  }
}
