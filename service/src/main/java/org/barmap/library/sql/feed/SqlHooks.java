package org.barmap.library.sql.feed;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.barmap.library.feed.Delivery;
import org.barmap.library.feed.Hook;
import org.barmap.library.feed.Hooks;
import org.barmap.library.feed.Told;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.statement.Query;

/** Web hooks in a database. */
record SqlHooks(Jdbi jdbi, Clock clock, SqlOutbox outbox) implements Hooks {

  /** What is told of a hook; its secret is not among it. */
  static final String CARD =
      "h.id as hook_id, h.book as hook_book, h.address, h.events, h.made_at as hook_made_at,"
          + " h.off, h.failing_since";

  private static final String DOUBTED =
      "It was registered when everybody with a key of this book could do so: turn it on if it is"
          + " yours, else remove it";

  @Override
  public List<Hook> of(Optional<String> book) {
    return jdbi.withHandle(
        h -> {
          String whose = book.isPresent() ? "h.book = :book" : "h.book is null";
          Query query =
              h.createQuery(
                  "select " + CARD + " from hook h where " + whose + " order by h.made_at, h.id");
          book.ifPresent(id -> query.bind("book", id));
          return query.map((row, context) -> hook(row)).list();
        });
  }

  static Hook hook(ResultSet row) throws SQLException {
    long failing = row.getLong("failing_since");
    return new Hook(
        row.getString("hook_id"),
        Optional.ofNullable(row.getString("hook_book")),
        row.getString("address"),
        Arrays.stream(row.getString("events").split(","))
            .flatMap(word -> Told.of(word).stream())
            .toList(),
        Instant.parse(row.getString("hook_made_at")),
        Optional.ofNullable(row.getString("off")),
        failing == 0 ? Optional.empty() : Optional.of(Instant.ofEpochMilli(failing)));
  }

  @Override
  public Optional<Hook> find(String id) {
    return jdbi.withHandle(h -> find(h, id));
  }

  private static Optional<Hook> find(Handle h, String id) {
    return h.createQuery("select " + CARD + " from hook h where h.id = :id")
        .bind("id", id)
        .map((row, context) -> hook(row))
        .findOne();
  }

  @Override
  public Optional<Hook> add(
      Optional<String> book, String address, String secret, List<Told> events) {
    String id = SqlOutbox.fresh();
    return jdbi.inTransaction(
        h -> {
          int all = h.createQuery("select count(*) from hook").mapTo(Integer.class).one();
          if (all >= MOST || book.isPresent() && ofBook(h, book.get()) >= MOST_OF_BOOK) {
            return Optional.empty();
          }
          h.createUpdate(
                  """
                  insert into hook (id, book, address, secret, events, made_at)
                  values (:id, :book, :address, :secret, :events, :made_at)
                  """)
              .bind("id", id)
              .bind("book", book)
              .bind("address", address)
              .bind("secret", secret)
              .bind("events", events.stream().map(Told::word).collect(Collectors.joining(",")))
              .bind("made_at", clock.instant().toString())
              .execute();
          return find(h, id);
        });
  }

  private static int ofBook(Handle h, String book) {
    return h.createQuery("select count(*) from hook where book = :book")
        .bind("book", book)
        .mapTo(Integer.class)
        .one();
  }

  static int doubt(Handle h) {
    return h.createUpdate("update hook set off = :off where book is not null and off is null")
        .bind("off", DOUBTED)
        .execute();
  }

  @Override
  public boolean remove(String id) {
    return jdbi.inTransaction(h -> h.execute("delete from hook where id = ?", id) == 1);
  }

  @Override
  public boolean turn(String id, Optional<String> off) {
    return jdbi.inTransaction(
        h -> {
          outbox.wake(h);
          return h.createUpdate(
                      "update hook set off = :off, failing_since = null, due_at = 0 where id = :id"
                          + (off.isPresent() ? "" : " and secret <> ''"))
                  .bind("id", id)
                  .bind("off", off)
                  .execute()
              == 1;
        });
  }

  @Override
  public List<Delivery> deliveries(String hook) {
    return jdbi.withHandle(
        h ->
            h.createQuery(
                    "select "
                        + SqlOutbox.CARD
                        + " from delivery d where d.hook = :hook order by d.seq desc limit "
                        + 2 * MOST_KEPT)
                .bind("hook", hook)
                .map((row, context) -> SqlOutbox.delivery(row))
                .list());
  }

  @Override
  public boolean again(String hook, String delivery) {
    return jdbi.inTransaction(
        h -> {
          outbox.wake(h);
          h.execute("update hook set due_at = 0 where id = ?", hook);
          return h.createUpdate(
                      """
                      update delivery set state = 'waiting', tries = 0
                      where id = :id and hook = :hook and state in ('dead', 'sent')
                      """)
                  .bind("id", delivery)
                  .bind("hook", hook)
                  .execute()
              == 1;
        });
  }

  @Override
  public void tryOut(String hook, Optional<String> book) {
    jdbi.useTransaction(h -> outbox.tryOut(h, hook, book));
  }
}
