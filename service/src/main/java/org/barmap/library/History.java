package org.barmap.library;

import java.util.List;

/**
 * The history of a value.
 *
 * @param entries the newest first
 * @param undo how many can be taken back, one after the other
 * @param redo how many can be made again, one after the other
 */
public record History(List<HistoryEntry> entries, int undo, int redo) {

  /** Takes a defensive copy. */
  public History {
    entries = List.copyOf(entries);
  }
}
