package org.barmap.library.postgres;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.barmap.library.Stores;
import org.jdbi.v3.core.Jdbi;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Who starts is alone only where nobody is at work, also nobody whose line is broken. */
class PresenceTest {

  private static final Duration LONG = Duration.ofMinutes(5);
  private static final String LOCK = "" + 0x62_61_72_6d_61_70L;

  @TempDir private Path folder;
  private Ways ways;

  @SuppressWarnings("NullAway.Init") // before each test
  PresenceTest() {}

  @BeforeEach
  void database() {
    ways = new Ways(DatabaseAddress.of(Stores.postgres(folder), Optional.empty()));
  }

  private Presence come(Duration grace) throws SQLException {
    return Presence.come(ways.patient(), Jdbi.create(ways.patient()), grace);
  }

  private void sql(String statement) throws SQLException {
    try (Connection connection = Stores.POSTGRES.connect(folder);
        Statement one = connection.createStatement()) {
      one.execute(statement);
    }
  }

  private boolean is(String question) {
    try (Connection connection = Stores.POSTGRES.connect(folder);
        Statement one = connection.createStatement();
        ResultSet row = one.executeQuery("select exists (" + question + ")")) {
      return row.next() && row.getBoolean(1);
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private void note(String name, String where) throws SQLException {
    sql("insert into keeping (name, value) values ('process " + name + "', '" + where + "')");
  }

  @Test
  void oneThatIsGoneIsForgotten() throws SQLException, IOException {
    Process over = new ProcessBuilder("true").start();
    over.onExit().join();
    note("killed", Others.machine() + " " + over.pid() + " 1");
    note("odd", Others.machine() + " x");
    try (Presence one = come(LONG)) {
      assertThat(one.wasAlone()).as("told at once on this machine").isTrue();
      one.stay();
      assertThat(is("select 1 from keeping where name in ('process killed', 'process odd')"))
          .isFalse();
      assertThat(is("select 1 from keeping where name like 'process %'")).isTrue();
    }
    assertThat(is("select 1 from keeping where name like 'process %'")).isFalse();
    note("elsewhere", "another-machine/pid:[1] 1 1");
    try (Presence one = come(Duration.ZERO)) {
      assertThat(one.wasAlone()).isTrue();
    }
    assertThat(is("select 1 from keeping where name like 'process %'")).isFalse();
  }

  @Test
  void oneOfAnotherMachineWhoseLineComesBackIsNotGone() throws Exception {
    note("elsewhere", "another-machine/pid:[1] 1 1");
    CompletableFuture<Presence> starts =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                return come(LONG);
              } catch (SQLException e) {
                throw new IllegalStateException(e);
              }
            });
    await().until(() -> is("select 1 from pg_locks where locktype = 'advisory' and granted"));
    assertThat(starts).isNotDone();
    // this waits for the lock, as a line does that comes back
    sql("select pg_advisory_lock_shared(" + LOCK + ")");
    try (Presence one = starts.get()) {
      assertThat(one.wasAlone()).isFalse();
      one.stay();
    }
  }
}
