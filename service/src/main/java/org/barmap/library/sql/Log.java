package org.barmap.library.sql;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.library.History;
import org.barmap.library.HistoryEntry;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.Nested;

/**
 * The history of one kind of value, kept in a table with columns {@code seq, id, book, made_at,
 * who, text, state}.
 *
 * <p>{@code done} steps can be taken back, {@code undone} ones made again; {@code dropped} ones
 * were taken back before something else was done, {@code kept} ones are from before the pages were
 * changed.
 */
final class Log {

  private final String table;

  Log(String table) {
    this.table = table;
  }

  /** A step as it is kept, with its number. */
  record Stored(long seq, @Nested HistoryEntry entry) {}

  /**
   * Adds a step that was just made.
   *
   * @param kept what is kept of it in the table's further columns, by their names
   */
  void add(Handle h, String book, HistoryEntry entry, Map<String, String> kept) {
    List<String> further = List.copyOf(kept.keySet());
    String columns = further.stream().map(c -> ", " + c).collect(Collectors.joining());
    String values = further.stream().map(c -> ", :" + c).collect(Collectors.joining());
    h.createUpdate(
            "insert into "
                + table
                + " (id, book, made_at, who, text, state"
                + columns
                + ") values (:id, :book, :made_at, :who, :text, 'done'"
                + values
                + ")")
        .bind("id", entry.id())
        .bind("book", book)
        .bind("made_at", entry.when().toString())
        .bind("who", entry.who())
        .bind("text", entry.text())
        .bindMap(kept)
        .execute();
  }

  /** Drops what was taken back: something else is done now. */
  void dropUndone(Handle h, String book) {
    h.createUpdate(
            "update " + table + " set state = 'dropped' where book = :book and state = 'undone'")
        .bind("book", book)
        .execute();
  }

  /** Keeps everything for good: nothing before this moment can be taken back or made again. */
  void close(Handle h, String book) {
    dropUndone(h, book);
    h.createUpdate("update " + table + " set state = 'kept' where book = :book and state = 'done'")
        .bind("book", book)
        .execute();
  }

  /** Returns the step that would be taken back. */
  Optional<Stored> latestDone(Handle h, String book) {
    return line(h, book, "state = 'done' order by seq desc limit 1");
  }

  /** Returns the step that would be made again. */
  Optional<Stored> firstUndone(Handle h, String book) {
    return line(h, book, "state = 'undone' order by seq limit 1");
  }

  private Optional<Stored> line(Handle h, String book, String which) {
    return h.createQuery(select(which)).bind("book", book).mapTo(Stored.class).findOne();
  }

  /** Sets the state of a step. */
  void mark(Handle h, long seq, String state) {
    h.createUpdate("update " + table + " set state = :state where seq = :seq")
        .bind("seq", seq)
        .bind("state", state)
        .execute();
  }

  /** Returns a column of a step. */
  String column(Handle h, long seq, String column) {
    return h.createQuery("select " + column + " from " + table + " where seq = :seq")
        .bind("seq", seq)
        .mapTo(String.class)
        .one();
  }

  /** Returns the history of a book. */
  History history(Handle h, String book) {
    List<HistoryEntry> entries =
        h.createQuery(select("true order by seq desc limit 5000"))
            .bind("book", book)
            .mapTo(HistoryEntry.class)
            .list();
    return new History(entries, count(h, book, "done"), count(h, book, "undone"));
  }

  private int count(Handle h, String book, String state) {
    return h.createQuery("select count(*) from " + table + " where book = :book and state = :state")
        .bind("book", book)
        .bind("state", state)
        .mapTo(Integer.class)
        .one();
  }

  private String select(String which) {
    return """
        select seq, id, made_at as "when", who, text, state in ('undone', 'dropped') as undone
        from %s where book = :book and %s
        """
        .formatted(table, which);
  }
}
