package org.barmap.exchange.table;

import java.util.ArrayList;
import java.util.List;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.change.effect.Stretch;
import org.barmap.plan.change.kind.ShowChange;

/** The show's changes as a table. */
final class ChangeTable {
  private static final List<String> HEAD =
      List.of(
          "musical number",
          "change",
          "first bar",
          "last bar",
          "kind",
          "counts",
          "note",
          "version",
          "since",
          "until",
          "said on",
          "by");

  private ChangeTable() {}

  static Table of(ShowChanges changes) {
    List<List<Cell>> rows = new ArrayList<>();
    for (ShowChange change : changes.changes()) {
      rows.add(
          List.of(
              Cell.of(change.number()),
              Cell.of(change.says()),
              Cell.words(change.where().map(Stretch::first)),
              Cell.words(change.where().map(Stretch::last)),
              Cell.of(change.kind()),
              Cell.of(change.meta().on() ? "yes" : "no"),
              Cell.words(change.meta().note()),
              Cell.words(change.meta().version()),
              Cell.words(change.meta().since()),
              Cell.words(change.meta().until()),
              Cell.words(change.meta().when().map(w -> w.split("T", 2)[0])),
              Cell.words(change.meta().who())));
    }
    return new Table("Changes", HEAD, rows);
  }
}
