package org.barmap.library.postgres;

import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.barmap.library.live.Signals;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.JdbiException;
import org.postgresql.PGConnection;
import org.postgresql.PGNotification;
import org.postgresql.ds.PGSimpleDataSource;

/**
 * This process at a database: a connection of its own says that it is there, and hears what the
 * others say ({@code LISTEN}). When that connection breaks it is made again.
 */
final class Presence implements Signals, AutoCloseable {

  private static final System.Logger LOG = System.getLogger(Presence.class.getName());

  private static final String CHANNEL = "barmap";

  /** Any number that nobody else takes: the letters of the name. */
  private static final long LOCK = 0x62_61_72_6d_61_70L;

  /** What the database takes is 8,000 bytes with what stands before the text. */
  private static final int MOST_BYTES = 7_000;

  /** A little longer than a broken line takes to come back: the pause, and a slow connection. */
  private static final Duration GRACE = Duration.ofSeconds(6);

  private static final int LOOK_MILLIS = 5_000;
  private static final int PAUSE_MILLIS = 500;
  private static final int VALID_SECONDS = 5;

  private final PGSimpleDataSource source;
  private final Jdbi jdbi;
  private final String own = UUID.randomUUID().toString().substring(0, 8);
  private final Map<String, List<Listener>> listeners = new ConcurrentHashMap<>();
  private final CountDownLatch closed = new CountDownLatch(1);
  private final Thread thread = new Thread(this::run, "barmap-signals");

  /** Of the thread, once that runs; whoever closes this drops it as well, to wake the thread. */
  private volatile Connection connection;

  private final boolean alone;

  /** Whether others know of this process, and the line by which they do is up. */
  private volatile boolean known;

  private Presence(PGSimpleDataSource source, Jdbi jdbi, Connection connection, Duration grace)
      throws SQLException {
    this.source = source;
    this.jdbi = jdbi;
    this.connection = connection;
    boolean first = asks(connection, "select pg_try_advisory_lock(" + LOCK + ")");
    // a process whose line is broken at this moment holds no lock and is at work all the same
    this.alone = first && new Others(connection, own, LOCK).areGone(grace);
    if (first && !alone) {
      asks(connection, "select pg_advisory_unlock(" + LOCK + ")");
    }
  }

  /**
   * Comes to a database. Until {@link #stay} nobody else does who would have to be alone there.
   *
   * @param source without limits of time
   * @param jdbi the way by which messages are sent
   */
  static Presence come(PGSimpleDataSource source, Jdbi jdbi) throws SQLException {
    return come(source, jdbi, GRACE);
  }

  /**
   * The same.
   *
   * @param grace how long one that can't be told from here may take to come back
   */
  static Presence come(PGSimpleDataSource source, Jdbi jdbi, Duration grace) throws SQLException {
    Connection connection = source.getConnection();
    try {
      return new Presence(source, jdbi, connection, grace);
    } catch (SQLException e) {
      drop(connection);
      throw e;
    }
  }

  /** It is still so until {@link #stay}. */
  @Override
  public boolean wasAlone() {
    return alone;
  }

  /** Lets others come, waits for one that is alone there now, and begins to listen. */
  void stay() throws SQLException {
    join();
    if (alone) {
      asks(connection, "select pg_advisory_unlock(" + LOCK + ")");
    }
    thread.setDaemon(true);
    thread.start();
  }

  private void join() throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute("select pg_advisory_lock_shared(" + LOCK + ")");
      statement.execute("listen " + CHANNEL);
    }
    Others.note(connection, own);
    known = true;
  }

  private static boolean asks(Connection connection, String question) throws SQLException {
    try (PreparedStatement statement = connection.prepareStatement(question);
        ResultSet row = statement.executeQuery()) {
      return row.next() && row.getBoolean(1);
    }
  }

  private boolean isClosed() {
    return closed.getCount() == 0;
  }

  private void run() {
    while (!isClosed()) {
      try {
        listen();
      } catch (SQLException e) {
        if (!isClosed()) {
          LOG.log(
              System.Logger.Level.WARNING, "the line to the database broke: {0}", e.getMessage());
          again();
        }
      }
    }
    // it may have come back while this was closed
    drop(connection);
  }

  private void listen() throws SQLException {
    PGConnection line = connection.unwrap(PGConnection.class);
    while (!isClosed()) {
      PGNotification[] heard = line.getNotifications(LOOK_MILLIS);
      if (heard != null) {
        for (PGNotification one : heard) {
          take(one.getParameter());
        }
      } else if (!connection.isValid(VALID_SECONDS)) {
        throw new SQLException("it does not answer");
      }
    }
  }

  private void again() {
    known = false;
    drop(connection);
    while (!isClosed()) {
      try {
        if (closed.await(PAUSE_MILLIS, TimeUnit.MILLISECONDS)) {
          return;
        }
        connection = source.getConnection();
        join();
        LOG.log(System.Logger.Level.INFO, "the line to the database is there again");
        tell(GAP, "");
        return;
      } catch (SQLException e) {
        LOG.log(System.Logger.Level.DEBUG, "the database is still away", e);
      } catch (InterruptedException e) {
        return;
      }
    }
  }

  private void take(String message) {
    String[] parts = message.split(" ", 3);
    if (parts.length == 3 && !parts[0].equals(own)) {
      tell(parts[1], parts[2]);
    }
  }

  private void tell(String topic, String text) {
    for (Listener listener : listeners.getOrDefault(topic, List.of())) {
      try {
        listener.hear(text);
      } catch (RuntimeException e) {
        LOG.log(System.Logger.Level.WARNING, "a message could not be taken", e);
      }
    }
  }

  @Override
  public boolean isShared() {
    return true;
  }

  @Override
  public void send(String topic, String text) {
    if (text.getBytes(StandardCharsets.UTF_8).length > MOST_BYTES) {
      LOG.log(System.Logger.Level.WARNING, "too long to be told: a message on {0}", topic);
      return;
    }
    try {
      jdbi.useHandle(
          h ->
              h.createQuery("select pg_notify(:channel, :message)")
                  .bind("channel", CHANNEL)
                  .bind("message", own + " " + topic + " " + text)
                  .map((row, context) -> true)
                  .one());
    } catch (JdbiException e) {
      LOG.log(System.Logger.Level.DEBUG, "a message could not be told", e);
    }
  }

  @Override
  public void hear(String topic, Listener listener) {
    listeners.computeIfAbsent(topic, t -> new CopyOnWriteArrayList<>()).add(listener);
  }

  private static void drop(Connection connection) {
    try {
      connection.close();
    } catch (SQLException e) {
      LOG.log(System.Logger.Level.DEBUG, "a broken line", e);
    }
  }

  @Override
  public void close() {
    closed.countDown();
    Others.leave(jdbi, own, known);
    thread.interrupt();
    drop(connection);
  }
}
