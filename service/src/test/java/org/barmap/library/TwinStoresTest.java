package org.barmap.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Both stores have the same tables: a migration that one of them lacks is found here. */
class TwinStoresTest {

  private static final String SQLITE =
      """
      select m.name, c.name, c."notnull" = 1 or c.pk > 0 from sqlite_master m join pragma_table_info(m.name) c
      where m.type = 'table' and m.name not like 'sqlite%' and m.name not like 'flyway%'
      """;

  private static final String POSTGRES =
      """
      select table_name, column_name, is_nullable = 'NO' from information_schema.columns
      where table_schema = 'public' and table_name not like 'flyway%' and column_name <> 'rowid'
      """;

  private static final String VERSION =
      "select version from flyway_schema_history order by installed_rank desc limit 1";

  @TempDir private Path one;
  @TempDir private Path other;

  private static Map<String, Set<String>> columns(Stores store, Path folder, String query)
      throws IOException, SQLException {
    store.open(folder, Clock.systemUTC()).close();
    Map<String, Set<String>> columns = new TreeMap<>();
    try (Connection connection = store.connect(folder);
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      while (row.next()) {
        String column = row.getString(2) + (row.getBoolean(3) ? "" : " or null");
        columns.computeIfAbsent(row.getString(1), t -> new TreeSet<>()).add(column);
      }
    }
    return columns;
  }

  private static String version(Stores store, Path folder) throws SQLException {
    try (Connection connection = store.connect(folder);
        Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(VERSION)) {
      row.next();
      return row.getString(1);
    }
  }

  @Test
  void theyHaveTheSameTablesAndColumns() throws IOException, SQLException {
    Map<String, Set<String>> embedded = columns(Stores.SQLITE, one, SQLITE);
    assertThat(embedded).hasSizeGreaterThan(10);
    assertThat(columns(Stores.POSTGRES, other, POSTGRES)).isEqualTo(embedded);
    assertThat(version(Stores.POSTGRES, other)).isEqualTo(version(Stores.SQLITE, one));
  }
}
