package org.barmap.library.postgres;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.sql.SQLException;
import java.time.Duration;
import org.postgresql.PGProperty;
import org.postgresql.ds.PGSimpleDataSource;

/** Ways to a database: one that answers late or not at all is given up after a while. */
record Ways(DatabaseAddress address) {

  /** So many requests and readings of one process are at the database at a time. */
  private static final int MOST = 10;

  /** A database in the same house answers within milliseconds. */
  private static final Duration TO_CONNECT = Duration.ofSeconds(5);

  /** The largest answer is what was read of a whole book, some megabytes. */
  private static final Duration TO_ANSWER = Duration.ofSeconds(30);

  private static final String LIMITS =
      "-c statement_timeout=20000 -c lock_timeout=10000"
          + " -c idle_in_transaction_session_timeout=60000";

  /** Returns a source whose statements end after a while. */
  PGSimpleDataSource limited() {
    PGSimpleDataSource source = source();
    source.setOptions(LIMITS);
    return source;
  }

  /** Returns a source whose statements take as long as they do: tables are brought up to date. */
  PGSimpleDataSource patient() {
    PGSimpleDataSource source = source();
    source.setSocketTimeout(0);
    return source;
  }

  private PGSimpleDataSource source() {
    PGSimpleDataSource source = new PGSimpleDataSource();
    source.setServerNames(new String[] {address.host()});
    source.setPortNumbers(new int[] {address.port()});
    source.setDatabaseName(address.name());
    source.setUser(address.user());
    source.setPassword(address.password());
    source.setApplicationName("barmap");
    source.setConnectTimeout((int) TO_CONNECT.toSeconds());
    source.setSocketTimeout((int) TO_ANSWER.toSeconds());
    source.setTcpKeepAlive(true);
    try {
      for (var option : address.options().entrySet()) {
        if (PGProperty.forName(option.getKey()) == null) {
          throw new IllegalArgumentException(
              "the database's driver knows no option " + option.getKey());
        }
        source.setProperty(option.getKey(), option.getValue());
      }
    } catch (SQLException e) {
      throw new IllegalArgumentException("an option of the database does not fit: " + e, e);
    }
    return source;
  }

  HikariDataSource pool() {
    PGSimpleDataSource source = limited();
    long wait = Math.max(1, source.getConnectTimeout()) * 1000L;
    HikariConfig config = new HikariConfig();
    config.setDataSource(source);
    config.setMaximumPoolSize(MOST);
    config.setMinimumIdle(1);
    config.setConnectionTimeout(wait);
    config.setValidationTimeout(wait);
    config.setKeepaliveTime(Duration.ofMinutes(1).toMillis());
    config.setInitializationFailTimeout(1);
    config.setPoolName("barmap");
    return new HikariDataSource(config);
  }
}
