package org.barmap.exchange.table;

import java.util.ArrayList;
import java.util.List;

/**
 * A table.
 *
 * @param name what it holds, "Bars"; the name of its sheet
 * @param head of its columns
 * @param rows each as long as the head
 */
public record Table(String name, List<String> head, List<List<Cell>> rows) {

  /** Takes defensive copies. */
  public Table {
    head = List.copyOf(head);
    List<List<Cell>> copies = new ArrayList<>();
    for (List<Cell> row : rows) {
      if (row.size() != head.size()) {
        throw new IllegalArgumentException(
            name + " has " + head.size() + " columns, a row has " + row.size());
      }
      copies.add(List.copyOf(row));
    }
    rows = List.copyOf(copies);
  }
}
