package org.barmap.library.postgres;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.library.Stores;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The one clock of all who share a database, when that was set back. */
class StoreClockTest {

  private static final long HOUR = Duration.ofHours(1).toMillis();

  @TempDir private Path folder;

  private PostgresStore process() {
    DatabaseAddress address = DatabaseAddress.of(Stores.postgres(folder), Optional.empty());
    return new PostgresStore(new Ways(address).patient());
  }

  @Test
  void whatOneProcessToldItAllGoBy() throws Exception {
    Clock clock = Clock.systemUTC();
    try (Library library = Stores.POSTGRES.open(folder, clock)) {
      assertThat(library.books().all()).isEmpty();
      PostgresStore one = process();
      PostgresStore other = process();
      long ahead = one.millis(clock) + HOUR;
      assertThat(one.goOnFrom(ahead, clock)).isTrue();
      assertThat(other.goOnFrom(ahead, clock)).isTrue();
      assertThat(other.millis(clock)).as("once, not twice").isBetween(ahead, ahead + HOUR / 2);
      assertThat(process().millis(clock)).as("also who comes later").isGreaterThanOrEqualTo(ahead);
    }
  }
}
