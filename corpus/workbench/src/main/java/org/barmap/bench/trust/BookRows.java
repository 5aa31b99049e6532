package org.barmap.bench.trust;

import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;

/** What a store of SQLite has in its tables of the reading of a book, for whoever looks for it. */
final class BookRows {

  private static final List<String> QUERIES =
      List.of(
          "select 'book', discarded_at, draft_revision from book where id = ?",
          "select 'page', id, position, source, picture, state, aside, reading_version, finding"
              + " from page where book = ? order by position",
          "select 'job', id, seq, state, done, of, attempts, failures, due_at, created_at, text"
              + " from job where book = ? order by seq",
          "select 'upload', u.id, u.job, u.name, u.file, u.open from upload u"
              + " join job j on j.id = u.job where j.book = ? order by u.seq",
          "select 'turn', execution_time, picked, last_heartbeat, version, consecutive_failures"
              + " from scheduled_tasks where task_instance = ?");

  private BookRows() {}

  /**
   * Returns a line for each row.
   *
   * @param data the folder of a service, which may have it open; there are none of another database
   */
  static List<String> of(Path data, String book) {
    List<String> rows = new ArrayList<>();
    Path file = data.resolve("barmap.db");
    if (Files.exists(file)) {
      try (Connection store = DriverManager.getConnection("jdbc:sqlite:" + file)) {
        for (String query : QUERIES) {
          add(store, query, book, rows);
        }
      } catch (SQLException e) {
        rows.add(e.toString());
      }
    }
    return rows;
  }

  private static void add(Connection store, String query, String book, List<String> rows)
      throws SQLException {
    try (PreparedStatement asked = store.prepareStatement(query)) {
      asked.setString(1, book);
      try (ResultSet row = asked.executeQuery()) {
        int columns = row.getMetaData().getColumnCount();
        while (row.next()) {
          List<String> cells = new ArrayList<>();
          for (int i = 1; i <= columns; i++) {
            cells.add(String.valueOf(row.getString(i)));
          }
          rows.add(String.join(" | ", cells));
        }
      }
    }
  }
}
