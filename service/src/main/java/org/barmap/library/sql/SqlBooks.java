package org.barmap.library.sql;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.edit.draft.Settled;
import org.barmap.library.BinCard;
import org.barmap.library.BookCard;
import org.barmap.library.Books;
import org.barmap.library.Saved;
import org.barmap.library.Settings;
import org.barmap.library.Versioned;
import org.barmap.library.sql.feed.SqlFeed;
import org.barmap.library.sql.turn.SqlTurns;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.jdbi.v3.core.Handle;

/** The shelf in a database. */
record SqlBooks(
    Store store,
    Clock clock,
    SqlDrafts drafts,
    Removal removal,
    SqlFeed feed,
    SqlTurns turns,
    SqlReplies replies)
    implements Books {

  private static final String CARD =
      """
      select b.id, b.title, b.part, b.created_at, b.bars, b.verified_pages, b.doubts,
             b.draft_revision as revision,
             (select count(*) from page p where p.book = b.id and p.aside = 0) as pages
      from book b where b.discarded_at is null
      """;

  @Override
  public List<BookCard> all() {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(CARD + " order by b.created_at desc, b.rowid desc")
                    .mapTo(BookCard.class)
                    .list());
  }

  @Override
  public BookCard add(String title, String part) {
    String id = Ids.make();
    BarMap empty = BarMap.of(new Book(title, part), List.of(), List.of(), List.of());
    store
        .jdbi()
        .useTransaction(
            h ->
                h.createUpdate(
                        """
                    insert into book (id, title, part, created_at, draft_map, draft_settled)
                    values (:id, :title, :part, :now, :map, :settled)
                    """)
                    .bind("id", id)
                    .bind("title", title)
                    .bind("part", part)
                    .bind("now", clock.instant().toString())
                    .bind("map", Json.write(empty))
                    .bind("settled", Json.write(Settled.NOTHING))
                    .execute());
    return find(id).orElseThrow();
  }

  @Override
  public Optional<BookCard> find(String book) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(CARD + " and b.id = :id")
                    .bind("id", book)
                    .mapTo(BookCard.class)
                    .findOne());
  }

  @Override
  public Saved<Draft> rename(String book, long revision, String title, String part) {
    return drafts.along(
        book,
        (h, now) -> {
          if (now.revision() != revision) {
            return new Saved.Stale<>(now.revision());
          }
          h.createUpdate("update book set title = :title, part = :part where id = :id")
              .bind("id", book)
              .bind("title", title)
              .bind("part", part)
              .execute();
          BarMap map = now.value().map();
          BarMap named =
              new BarMap(
                  map.format(),
                  new Book(title, part),
                  map.pages(),
                  map.numbers(),
                  map.bars(),
                  map.findings());
          return drafts.next(h, book, now, now.value().with(named), "Named anew");
        });
  }

  @Override
  public boolean discard(String book) {
    return setDiscarded(book, Optional.of(clock.instant()));
  }

  @Override
  public boolean restore(String book) {
    return setDiscarded(book, Optional.empty());
  }

  @Override
  public List<BinCard> bin() {
    Optional<Integer> days = store.jdbi().withHandle(Removal::binDays);
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(
                        """
                    select b.id, b.title, b.part, b.discarded_at,
                           (select count(*) from page p where p.book = b.id and p.aside = 0) as pages
                    from book b where b.discarded_at is not null
                    order by b.discarded_at desc, b.rowid desc
                    """)
                    .map((row, context) -> binCard(row, days))
                    .list());
  }

  private static BinCard binCard(ResultSet row, Optional<Integer> days) throws SQLException {
    Instant discarded = Instant.parse(row.getString("discarded_at"));
    return new BinCard(
        row.getString("id"),
        row.getString("title"),
        row.getString("part"),
        row.getInt("pages"),
        discarded,
        days.map(d -> discarded.plus(Duration.ofDays(d))));
  }

  @Override
  public boolean removeForGood(String book) {
    boolean gone = removal.purge(book, Instant.MAX);
    if (gone) {
      removal.sweep();
    }
    return gone;
  }

  private boolean setDiscarded(String book, Optional<Instant> when) {
    String from = when.isPresent() ? "is null" : "is not null";
    return store.edit(
        book,
        h -> {
          boolean set =
              h.createUpdate(
                          "update book set discarded_at = :when where id = :id and discarded_at "
                              + from)
                      .bind("id", book)
                      .bind("when", when.map(Instant::toString))
                      .execute()
                  == 1;
          if (set && when.isEmpty()) {
            // what was not read when it went into the bin is read now
            turns.put(h, book);
          }
          if (set) {
            replies.made(h, 0);
          }
          return set;
        });
  }

  @Override
  public Settings settings(String book) {
    return versionedSettings(book).value();
  }

  @Override
  public Versioned<Settings> versionedSettings(String book) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery("select settings, settings_revision from book where id = :id")
                    .bind("id", book)
                    .map(
                        (row, context) ->
                            new Versioned<>(
                                row.getLong("settings_revision"),
                                Optional.ofNullable(row.getString("settings"))
                                    .map(Json::settings)
                                    .orElse(Settings.USUAL)))
                    .findOne()
                    .orElseGet(() -> new Versioned<>(0, Settings.USUAL)));
  }

  @Override
  public boolean setSettings(String book, long revision, Settings settings) {
    return store.edit(
        book,
        h -> {
          // they say when the last rehearsal ended: no later step may come before that
          Keys.later(store, h, clock);
          boolean set =
              h.createUpdate(
                          """
                      update book set settings = :settings,
                        settings_revision = settings_revision + 1
                      where id = :id and settings_revision = :revision
                      """)
                      .bind("id", book)
                      .bind("revision", revision)
                      .bind("settings", Json.write(settings))
                      .execute()
                  == 1;
          if (set) {
            feed.planned(h, book, changesRevision(h, book));
            replies.made(h, revision + 1);
          }
          return set;
        });
  }

  private static long changesRevision(Handle h, String book) {
    return h.createQuery("select changes_revision from book where id = :id")
        .bind("id", book)
        .mapTo(Long.class)
        .one();
  }
}
