package org.barmap.library.sql;

import java.util.Arrays;
import java.util.Optional;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.flywaydb.core.api.MigrationInfo;

/** The versions of a store's tables, and the way from each to the next. */
public final class Migrations {

  private final Flyway flyway;

  /**
   * Makes it.
   *
   * @param folder of the migrations: which database it is
   */
  public Migrations(DataSource store, String folder) {
    flyway =
        Flyway.configure(Migrations.class.getClassLoader())
            .dataSource(store)
            .locations("classpath:org/barmap/library/migration/" + folder)
            .load();
  }

  /** Returns why a store is not for this program, in the end of a sentence; empty when it is. */
  public Optional<String> newer() {
    return Arrays.stream(flyway.info().all())
        .filter(one -> one.getState().isApplied() && !one.getState().isResolved())
        .findFirst()
        .map(
            one ->
                "was used by a newer barmap (its database is of version "
                    + one.getVersion()
                    + ", this program knows them up to "
                    + newest()
                    + ")");
  }

  /** Returns the newest version of a store that this program knows. */
  public String newest() {
    return Arrays.stream(flyway.info().all())
        .filter(one -> one.getState().isResolved())
        .reduce((a, b) -> b)
        .map(MigrationInfo::getVersion)
        .map(String::valueOf)
        .orElse("none");
  }

  /** Brings a store up to date. */
  public void run() {
    flyway.migrate();
  }
}
