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
    this(store, folder, "latest");
  }

  /**
   * Makes it for an older version.
   *
   * @param folder of the migrations: which database it is
   * @param version the last one that {@link #run} makes; "latest" for the newest
   */
  public Migrations(DataSource store, String folder, String version) {
    flyway =
        Flyway.configure(Migrations.class.getClassLoader())
            .dataSource(store)
            .locations("classpath:org/barmap/library/migration/" + folder)
            .target(version)
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

  /** Tells whether a store was made by an older program, and is to be brought up to date. */
  public boolean isOlder() {
    return flyway.info().applied().length > 0 && flyway.info().pending().length > 0;
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

  /** Tells whether a store of that version could be made by this program. */
  public boolean knows(String version) {
    return Arrays.stream(flyway.info().all())
        .anyMatch(
            one -> one.getState().isResolved() && String.valueOf(one.getVersion()).equals(version));
  }

  /** Brings a store up to date. */
  public void run() {
    flyway.migrate();
  }
}
