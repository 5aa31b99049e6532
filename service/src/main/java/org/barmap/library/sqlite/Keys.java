package org.barmap.library.sqlite;

import java.util.Optional;
import org.jdbi.v3.core.Handle;

/** What holds for the whole store, by names. */
final class Keys {

  private Keys() {}

  /**
   * Tells whether there is such a table: an older store has none before it is brought up to date.
   */
  static boolean isThere(Handle h) {
    return hasTable(h, "keeping");
  }

  static boolean hasTable(Handle h, String table) {
    return h.createQuery("select count(*) from sqlite_master where type = 'table' and name = :name")
            .bind("name", table)
            .mapTo(Integer.class)
            .one()
        > 0;
  }

  static Optional<String> find(Handle h, String name) {
    return h.createQuery("select value from keeping where name = :name")
        .bind("name", name)
        .mapTo(String.class)
        .findOne();
  }

  static void set(Handle h, String name, Optional<String> value) {
    if (value.isEmpty()) {
      h.execute("delete from keeping where name = ?", name);
      return;
    }
    h.execute(
        "insert into keeping (name, value) values (?, ?)"
            + " on conflict (name) do update set value = excluded.value",
        name,
        value.get());
  }
}
