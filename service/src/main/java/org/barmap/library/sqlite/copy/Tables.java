package org.barmap.library.sqlite.copy;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/** The tables of a store, as its SQLite form has them. */
public final class Tables {

  private static final String ALL =
      "select name from sqlite_master where type = 'table' and name not like 'sqlite%'"
          + " and name not like 'flyway%' order by name";

  private Tables() {}

  /** What a column holds. */
  enum Kind {
    TEXT,
    INTEGER,
    BLOB
  }

  /**
   * A table.
   *
   * @param columns in their order
   * @param counted whether its rows are in an order that no column says, {@code rowid}
   */
  record Table(String name, Map<String, Kind> columns, boolean counted) {}

  /** Returns the names, those that others refer to first. */
  public static List<String> names(Connection sqlite) throws SQLException {
    Map<String, Set<String>> needs = new LinkedHashMap<>();
    for (String table : texts(sqlite, ALL, 1)) {
      Set<String> others =
          new TreeSet<>(texts(sqlite, "pragma foreign_key_list(\"" + table + "\")", 3));
      others.remove(table);
      needs.put(table, others);
    }
    List<String> order = new ArrayList<>();
    while (order.size() < needs.size()) {
      List<String> next =
          needs.keySet().stream()
              .filter(t -> !order.contains(t) && order.containsAll(needs.get(t)))
              .toList();
      if (next.isEmpty()) {
        throw new SQLException("tables refer to one another in a circle");
      }
      order.addAll(next);
    }
    return order;
  }

  static List<String> texts(Connection connection, String query, int column) throws SQLException {
    List<String> texts = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery(query)) {
      while (row.next()) {
        texts.add(String.valueOf(row.getString(column)));
      }
    }
    return texts;
  }

  static Table table(Connection sqlite, String name) throws SQLException {
    Map<String, Kind> columns = new LinkedHashMap<>();
    boolean counted = true;
    try (Statement statement = sqlite.createStatement();
        ResultSet row = statement.executeQuery("pragma table_info(\"" + name + "\")")) {
      while (row.next()) {
        Kind kind =
            switch (row.getString("type").toUpperCase(Locale.ROOT)) {
              case "TEXT" -> Kind.TEXT;
              case "INTEGER" -> Kind.INTEGER;
              case "BLOB" -> Kind.BLOB;
              default -> throw new SQLException("a column of an unknown kind in " + name);
            };
        columns.put(row.getString("name"), kind);
        counted &= row.getInt("pk") == 0 || kind != Kind.INTEGER;
      }
    }
    return new Table(name, columns, counted);
  }

  static boolean isSqlite(Connection connection) throws SQLException {
    return connection.getMetaData().getDatabaseProductName().startsWith("SQLite");
  }

  /** Tells whether a database counts the rows of a table in a column of its own. */
  static boolean isCounted(Connection connection, Table table) throws SQLException {
    if (isSqlite(connection)) {
      return table.counted();
    }
    try (PreparedStatement statement =
        connection.prepareStatement(
            "select 1 from information_schema.columns where table_schema = current_schema()"
                + " and table_name = ? and column_name = 'rowid'")) {
      statement.setString(1, table.name());
      try (ResultSet row = statement.executeQuery()) {
        return row.next();
      }
    }
  }
}
