package org.barmap.web.route;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Who is at a book now, and where. A desk is there as long as it listens to the book's events:
 * nobody has to say good-bye, and nobody stays who has gone.
 */
final class Desks {

  /** More than a section has desks. */
  private static final int MOST = 50;

  /**
   * One window somebody works in.
   *
   * @param id of its own, from the window
   * @param who a name or initials; may be empty
   * @param room of the pages: desk, road, ...; empty until it is said
   * @param page of the book, 0 for none
   * @param bar id of the bar entry that is chosen; empty for none
   */
  record Desk(String id, String who, String room, int page, String bar) {}

  /** A desk and how many lines it holds: when a line is taken up again two may be open. */
  private record Line(Desk desk, int open) {}

  private final Map<String, Map<String, Line>> books = new LinkedHashMap<>();

  /** A desk begins to listen; false when there are too many already. */
  synchronized boolean open(String book, String id) {
    Map<String, Line> lines = books.computeIfAbsent(book, b -> new LinkedHashMap<>());
    if (lines.size() >= MOST && !lines.containsKey(id)) {
      return false;
    }
    lines.merge(
        id,
        new Line(new Desk(id, "", "", 0, ""), 1),
        (old, fresh) -> new Line(old.desk, old.open + 1));
    return true;
  }

  /** A line of a desk ended. */
  synchronized void close(String book, String id) {
    Map<String, Line> lines = books.getOrDefault(book, Map.of());
    Line line = lines.get(id);
    if (line == null) {
      return;
    }
    if (line.open > 1) {
      lines.put(id, new Line(line.desk, line.open - 1));
      return;
    }
    lines.remove(id);
    if (lines.isEmpty()) {
      books.remove(book);
    }
  }

  /** A desk says where it is; false when it doesn't listen. */
  synchronized boolean place(String book, Desk desk) {
    Map<String, Line> lines = books.get(book);
    return lines != null
        && lines.computeIfPresent(desk.id, (id, line) -> new Line(desk, line.open)) != null;
  }

  /** Returns those who said where they are, the first to come first. */
  synchronized List<Desk> at(String book) {
    return books.getOrDefault(book, Map.of()).values().stream()
        .map(Line::desk)
        .filter(desk -> !desk.room.isEmpty())
        .toList();
  }
}
