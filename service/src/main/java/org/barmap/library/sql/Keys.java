package org.barmap.library.sql;

import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import org.jdbi.v3.core.Handle;

/** What holds for the whole store, by names. */
public final class Keys {

  /** By how much the clock of a shared store was set back in all, milliseconds. */
  public static final String CLOCK_BACK = "clock-back";

  private static final String CLOCK = "clock";

  private Keys() {}

  /** Returns what is kept by a name. */
  public static Optional<String> find(Handle h, String name) {
    return h.createQuery("select value from keeping where name = :name")
        .bind("name", name)
        .mapTo(String.class)
        .findOne();
  }

  /** Keeps something by a name; empty takes it out. */
  public static void set(Handle h, String name, Optional<String> value) {
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

  /**
   * Returns a moment that is later than every one it gave before, and the clock's where that is not
   * set back: the order of steps is told by it.
   */
  static Instant later(Store store, Handle h, Clock clock) {
    store.hold(h, CLOCK);
    Instant now = clock.instant();
    Instant next =
        find(h, CLOCK)
            .map(before -> Instant.parse(before).plusMillis(1))
            .filter(before -> before.isAfter(now))
            .orElse(now);
    set(h, CLOCK, Optional.of(next.toString()));
    return next;
  }
}
