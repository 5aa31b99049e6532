package org.barmap.library.sql.feed;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.barmap.library.feed.Delivery;
import org.barmap.library.feed.Hook;
import org.barmap.library.feed.Hooks;
import org.barmap.library.feed.Outbox;
import org.barmap.library.feed.Told;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** The outbox in a database. */
final class SqlOutbox implements Outbox {

  static final String CARD =
      "d.id, d.hook, d.book, d.event, d.edition, d.revision, d.made_at, d.state, d.tries, d.answer,"
          + " d.tried_at";

  /** More than these wait for a hook only when it can't be reached; the oldest are given up. */
  private static final int MOST_WAITING = 1000;

  private static final int MOST_LETTERS = 200;

  /** Whoever sends for longer than this was ended; much longer than any try takes. */
  private static final Duration LEASE = Duration.ofMinutes(5);

  private final Jdbi jdbi;
  private final Clock clock;
  private final SqlFeed.Shelf shelf;
  private final Runnable queued;

  SqlOutbox(Jdbi jdbi, Clock clock, SqlFeed.Shelf shelf, Runnable queued) {
    this.jdbi = jdbi;
    this.clock = clock;
    this.shelf = shelf;
    this.queued = queued;
  }

  /** Something that happened to a book. */
  record News(String book, Told event, Optional<Integer> edition, long revision) {}

  static String fresh() {
    return UUID.randomUUID().toString().replace("-", "");
  }

  /** Says after the transaction that there may be something to send. */
  void wake(Handle h) {
    h.afterCommit(queued);
  }

  /** Queues news for every hook that is told of it. */
  void tell(Handle h, News news) {
    List<Hook> hooks =
        h
            .createQuery(
                "select "
                    + SqlHooks.CARD
                    + " from hook h where (h.book = :book or h.book is null) and h.off is null")
            .bind("book", news.book)
            .map((row, context) -> SqlHooks.hook(row))
            .list()
            .stream()
            .filter(hook -> hook.events().contains(news.event))
            .toList();
    hooks.forEach(hook -> queue(h, hook.id(), news));
    if (!hooks.isEmpty()) {
      wake(h);
    }
  }

  /** What says only that something is of a newer revision takes the place of what still waits. */
  private void queue(Handle h, String hook, News news) {
    int taken =
        h.createUpdate(
                """
                update delivery set revision = :revision, made_at = :made_at
                where seq = (select max(seq) from delivery where hook = :hook and book = :book)
                  and event = :event and state = 'waiting' and tries = 0 and edition is null
                """)
            .bind("hook", hook)
            .bind("book", news.book)
            .bind("event", news.event.word())
            .bind("revision", news.revision)
            .bind("made_at", clock.instant().toString())
            .execute();
    if (taken == 0) {
      insert(h, hook, Optional.of(news.book), news);
      giveUpTooMany(h, hook);
    }
  }

  void tryOut(Handle h, String hook, Optional<String> book) {
    insert(h, hook, book, new News("", Told.TRIED, Optional.empty(), 0));
    h.execute("update hook set due_at = 0 where id = ?", hook);
    wake(h);
  }

  private void insert(Handle h, String hook, Optional<String> book, News news) {
    h.createUpdate(
            """
            insert into delivery (id, hook, book, event, edition, revision, made_at, state)
            values (:id, :hook, :book, :event, :edition, :revision, :made_at, 'waiting')
            """)
        .bind("id", fresh())
        .bind("hook", hook)
        .bind("book", book)
        .bind("event", news.event.word())
        .bind("edition", news.edition)
        .bind("revision", news.revision)
        .bind("made_at", clock.instant().toString())
        .execute();
  }

  private static void giveUpTooMany(Handle h, String hook) {
    h.createUpdate(
            """
            update delivery set state = 'dead', answer = 'Too many were waiting'
            where hook = :hook and state = 'waiting' and seq <=
              (select seq from delivery where hook = :hook and state = 'waiting'
               order by seq desc limit 1 offset %d)
            """
                .formatted(MOST_WAITING))
        .bind("hook", hook)
        .execute();
  }

  @Override
  public void takeUpAgain() {
    jdbi.useTransaction(
        h -> h.execute("update delivery set state = 'waiting' where state = 'sending'"));
  }

  @Override
  public Optional<Sending> next() {
    return jdbi.inTransaction(
        h -> {
          shelf.hold(h, "outbox");
          Optional<Sending> next =
              h.createQuery(
                      "select "
                          + CARD
                          + ", h.secret, "
                          + SqlHooks.CARD
                          + """
                           from hook h join delivery d on d.hook = h.id
                          where h.off is null and h.due_at <= :now
                            and (d.state = 'waiting' or d.state = 'sending' and d.tried_at < :stale)
                            and d.seq =
                            (select min(seq) from delivery
                             where hook = h.id and state in ('waiting', 'sending'))
                          order by d.seq limit 1
                          """)
                  .bind("now", clock.instant().toEpochMilli())
                  .bind("stale", clock.instant().minus(LEASE).toString())
                  .map(
                      (row, context) ->
                          new Sending(delivery(row), SqlHooks.hook(row), row.getString("secret")))
                  .findOne();
          next.ifPresent(
              n ->
                  h.execute(
                      "update delivery set state = 'sending', tries = tries + 1, tried_at = ?"
                          + " where id = ?",
                      clock.instant().toString(),
                      n.delivery().id()));
          return next;
        });
  }

  static Delivery delivery(ResultSet row) throws SQLException {
    int edition = row.getInt("edition");
    return new Delivery(
        row.getString("id"),
        row.getString("hook"),
        Optional.ofNullable(row.getString("book")),
        Told.of(row.getString("event")).orElseThrow(),
        edition == 0 ? Optional.empty() : Optional.of(edition),
        row.getLong("revision"),
        Instant.parse(row.getString("made_at")),
        Delivery.State.valueOf(row.getString("state").toUpperCase(Locale.ROOT)),
        row.getInt("tries"),
        row.getString("answer"),
        Optional.ofNullable(row.getString("tried_at")).map(Instant::parse));
  }

  @Override
  public void arrived(Sending sent, String answer) {
    jdbi.useTransaction(
        h -> {
          end(h, sent, "sent", answer);
          h.execute(
              "update hook set failing_since = null, due_at = 0 where id = ?", sent.hook().id());
        });
  }

  private static void end(Handle h, Sending sent, String state, String answer) {
    String said = answer.length() > MOST_LETTERS ? answer.substring(0, MOST_LETTERS) : answer;
    h.execute(
        "update delivery set state = ?, answer = ? where id = ? and state = 'sending'",
        state,
        said,
        sent.delivery().id());
    trim(h, sent.hook().id(), "sent");
    trim(h, sent.hook().id(), "dead");
  }

  private static void trim(Handle h, String hook, String state) {
    h.createUpdate(
            """
            delete from delivery where hook = :hook and state = :state and seq <=
              (select seq from delivery where hook = :hook and state = :state
               order by seq desc limit 1 offset %d)
            """
                .formatted(Hooks.MOST_KEPT))
        .bind("hook", hook)
        .bind("state", state)
        .execute();
  }

  @Override
  public void failed(Sending sent, Failure failure) {
    long now = clock.instant().toEpochMilli();
    String hook = sent.hook().id();
    jdbi.useTransaction(
        h -> {
          end(h, sent, failure.givenUp() ? "dead" : "waiting", failure.answer());
          h.createUpdate(
                  """
                  update hook set due_at = :due, failing_since = coalesce(failing_since, :now),
                    off = coalesce(off, :off) where id = :id
                  """)
              .bind("due", now + failure.pause().toMillis())
              .bind("now", now)
              .bind("off", failure.off())
              .bind("id", hook)
              .execute();
          if (failure.off().isPresent()) {
            h.execute(
                "update delivery set state = 'dead' where hook = ? and state = 'waiting'", hook);
          }
        });
  }

  @Override
  public Optional<Instant> due() {
    return jdbi.withHandle(
        h ->
            h.createQuery(
                    """
                    select min(h.due_at) from hook h where h.off is null and exists
                      (select 1 from delivery d
                       where d.hook = h.id and d.state = 'waiting')
                      and not exists
                      (select 1 from delivery d
                       where d.hook = h.id and d.state = 'sending')
                    """)
                .mapTo(Long.class)
                .findOne()
                .map(Instant::ofEpochMilli));
  }
}
