package org.barmap.library.sqlite.copy;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.sql.Types;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.barmap.library.sqlite.copy.Tables.Kind;
import org.barmap.library.sqlite.copy.Tables.Table;

/**
 * Copies all rows from one database of a version to another one of that version, of whatever kind
 * both are. The caller's transactions say of which moment they are, and that all come or none.
 */
public final class TableCopy {

  /** A row may hold what was read of a page, a hundred kilobytes. */
  private static final int AT_ONCE = 50;

  private TableCopy() {}

  /**
   * Copies into empty tables.
   *
   * @param sqlite one of the two, which says what the tables are
   */
  public static void copy(Connection from, Connection to, Connection sqlite, Leaving leaving)
      throws SQLException {
    for (String name : Tables.names(sqlite)) {
      if (!leaving.isLeft(name)) {
        copy(from, to, Tables.table(sqlite, name), leaving);
      }
    }
  }

  /** Empties every table. */
  public static void empty(Connection of, Connection sqlite) throws SQLException {
    List<String> names = new ArrayList<>(Tables.names(sqlite));
    Collections.reverse(names);
    try (Statement statement = of.createStatement()) {
      for (String name : names) {
        statement.executeUpdate("delete from \"" + name + "\"");
      }
    }
  }

  private static void copy(Connection from, Connection to, Table table, Leaving leaving)
      throws SQLException {
    Map<String, Kind> columns = new java.util.LinkedHashMap<>(table.columns());
    if (Tables.isCounted(from, table) && Tables.isCounted(to, table)) {
      columns.put("rowid", Kind.INTEGER);
    }
    List<String> names = columns.keySet().stream().map(c -> '"' + c + '"').toList();
    List<String> values =
        columns.keySet().stream().map(c -> leaving.value(table.name(), c)).toList();
    String select =
        "select "
            + String.join(", ", values)
            + " from \""
            + table.name()
            + "\""
            + leaving.where(table.name());
    String insert =
        "insert into \""
            + table.name()
            + "\" ("
            + String.join(", ", names)
            + ") values ("
            + String.join(", ", Collections.nCopies(names.size(), "?"))
            + ")";
    boolean zero = Tables.isSqlite(to);
    List<Kind> kinds = List.copyOf(columns.values());
    List<String> of = List.copyOf(columns.keySet());
    try (Statement read = from.createStatement();
        PreparedStatement write = to.prepareStatement(insert)) {
      read.setFetchSize(AT_ONCE);
      try (ResultSet row = read.executeQuery(select)) {
        int waiting = 0;
        while (row.next()) {
          for (int i = 1; i <= kinds.size(); i++) {
            String column = of.get(i - 1);
            set(write, row, i, kinds.get(i - 1), t -> text(t, table, column, leaving, zero));
          }
          write.addBatch();
          if (++waiting == AT_ONCE) {
            write.executeBatch();
            waiting = 0;
          }
        }
        write.executeBatch();
      }
    }
  }

  /**
   * Returns what is left of a text.
   *
   * @param zero whether it may hold the character that PostgreSQL can't keep
   */
  private static String text(
      String text, Table table, String column, Leaving leaving, boolean zero) {
    String left = leaving.text(table.name(), column, text);
    return zero ? left : left.replace('\0', '\u2400');
  }

  /**
   * Copies a value.
   *
   * @param said what is left of a text
   */
  private static void set(
      PreparedStatement write, ResultSet row, int i, Kind kind, UnaryOperator<String> said)
      throws SQLException {
    switch (kind) {
      case TEXT -> {
        String text = row.getString(i);
        write.setString(i, text == null ? null : said.apply(text));
      }
      case BLOB -> write.setBytes(i, row.getBytes(i));
      case INTEGER -> {
        long number = row.getLong(i);
        if (row.wasNull()) {
          write.setNull(i, Types.BIGINT);
        } else {
          write.setLong(i, number);
        }
      }
    }
  }
}
