package org.barmap.library.sql.feed;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.barmap.edit.draft.Draft;
import org.barmap.library.Versioned;
import org.barmap.library.feed.Edition;
import org.barmap.library.feed.Editions;
import org.barmap.map.BarMap;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** Editions in a database: a card and a packed document each. */
record SqlEditions(Jdbi jdbi, Clock clock, SqlFeed.Shelf shelf, Fresh fresh) implements Editions {

  /** Hears of an edition in the transaction that makes it. */
  @FunctionalInterface
  interface Fresh {
    void made(Handle h, String book, Edition edition);
  }

  private static final String CARD =
      """
      select e.number, e.made_at, e.who, e.revision, e.pages, e.bars, e.sha256, e.bytes
      from edition e join book b on b.id = e.book
      where e.book = :book and b.discarded_at is null
      """;

  private static final Making NO_BOOK = new Making.Refused("There is no such book");

  private static final String DONE =
      "select count(*) from correction where book = :book and state in ('done', 'kept') and seq ";

  @Override
  public List<Edition> all(String book) {
    return jdbi.withHandle(
        h ->
            h.createQuery(CARD + " order by e.number desc limit " + MOST_LISTED)
                .bind("book", book)
                .map((row, context) -> card(row))
                .list());
  }

  private static Edition card(ResultSet row) throws SQLException {
    return new Edition(
        row.getInt("number"),
        Instant.parse(row.getString("made_at")),
        row.getString("who"),
        row.getLong("revision"),
        row.getInt("pages"),
        row.getInt("bars"),
        row.getString("sha256"),
        row.getLong("bytes"));
  }

  @Override
  public Optional<Edition> find(String book, int number) {
    return jdbi.withHandle(
        h ->
            h.createQuery(CARD + " and e.number = :number")
                .bind("book", book)
                .bind("number", number)
                .map((row, context) -> card(row))
                .findOne());
  }

  @Override
  public Optional<Edition> latest(String book) {
    return jdbi.withHandle(h -> latest(h, book));
  }

  private static Optional<Edition> latest(Handle h, String book) {
    return h.createQuery(CARD + " order by e.number desc limit 1")
        .bind("book", book)
        .map((row, context) -> card(row))
        .findOne();
  }

  @Override
  public Optional<byte[]> packed(String book, int number) {
    return jdbi.withHandle(h -> packed(h, book, number));
  }

  private static Optional<byte[]> packed(Handle h, String book, int number) {
    return h.createQuery(
            """
            select e.document from edition e join book b on b.id = e.book
            where e.book = :book and e.number = :number and b.discarded_at is null
            """)
        .bind("book", book)
        .bind("number", number)
        .map((row, context) -> row.getBytes("document"))
        .findOne();
  }

  @Override
  public Optional<Integer> correctionsSince(String book) {
    return jdbi.withHandle(
        h ->
            h.createQuery(
                    "select step, steps from edition where book = :book order by number desc limit 1")
                .bind("book", book)
                .map((row, context) -> since(h, book, row.getLong("step"), row.getInt("steps")))
                .findOne());
  }

  /** Those made after it, and those of before it that were taken back, or made again. */
  private static int since(Handle h, String book, long step, int steps) {
    return done(h, book, "> ", step) + Math.abs(steps - done(h, book, "<= ", step));
  }

  private static int done(Handle h, String book, String than, long step) {
    return h.createQuery(DONE + than + ":step")
        .bind("book", book)
        .bind("step", step)
        .mapTo(Integer.class)
        .one();
  }

  @Override
  public Making make(String book, long revision, String who) {
    Optional<Versioned<Draft>> seen = jdbi.withHandle(h -> shelf.draft(h, book));
    if (seen.isEmpty()) {
      return NO_BOOK;
    }
    if (seen.get().revision() != revision) {
      return new Making.Stale(seen.get().revision());
    }
    // written and packed before others have to wait; what the book is by then is compared below
    Ready ready = jdbi.withHandle(h -> ready(h, book, seen.get()));
    return shelf.edit(
        book,
        h -> {
          Optional<Long> now = revision(h, book);
          if (now.isEmpty()) {
            return NO_BOOK;
          }
          if (now.get() != revision) {
            return new Making.Stale(now.get());
          }
          int open = unchecked(h, book, seen.get().value());
          if (open > 0) {
            String pages = open == 1 ? "1 page is" : open + " pages are";
            return new Making.Refused(
                "An edition is made of a checked book, and " + pages + " not checked yet");
          }
          return make(h, book, ready, who);
        });
  }

  private static Optional<Long> revision(Handle h, String book) {
    return h.createQuery("select draft_revision from book where id = :id and discarded_at is null")
        .bind("id", book)
        .mapTo(Long.class)
        .findOne();
  }

  /** How many pages nobody has checked; of an empty book one. */
  static int unchecked(Handle h, String book, Draft draft) {
    int pages =
        h.createQuery("select count(*) from page where book = :book and aside = 0")
            .bind("book", book)
            .mapTo(Integer.class)
            .one();
    int checked = draft.settled().verifiedPages().size();
    return pages == 0 ? 1 : Math.max(draft.isVerified() ? 0 : 1, pages - checked);
  }

  /** Makes an edition of a draft that is checked, unless the newest one is the same. */
  Making.Made make(Handle h, String book, Versioned<Draft> now, String who) {
    return make(h, book, ready(h, book, now), who);
  }

  /**
   * What an edition would be, as its draft was seen.
   *
   * @param latest the newest edition there was then
   * @param isSame whether that is the same
   */
  private record Ready(
      Versioned<Draft> draft,
      EditionDocument document,
      byte[] packed,
      Optional<Edition> latest,
      boolean isSame) {}

  private static Ready ready(Handle h, String book, Versioned<Draft> draft) {
    EditionDocument document = EditionDocument.of(draft.value());
    Optional<Edition> latest = latest(h, book);
    boolean same = latest.isPresent() && isSame(h, book, latest.get(), draft.value(), document);
    return new Ready(draft, document, document.packed(), latest, same);
  }

  private Making.Made make(Handle h, String book, Ready seen, String who) {
    Optional<Edition> latest = latest(h, book);
    // somebody else may have made one meanwhile
    Ready now = latest.equals(seen.latest) ? seen : ready(h, book, seen.draft);
    if (latest.isPresent() && now.isSame) {
      return new Making.Made(latest.get(), false);
    }
    BarMap map = now.draft.value().map();
    Edition made =
        new Edition(
            latest.map(Edition::number).orElse(0) + 1,
            clock.instant(),
            who,
            now.draft.revision(),
            map.pages().size(),
            map.writtenBars(),
            now.document.sha256(),
            now.document.text().length);
    insert(h, book, made, now.packed);
    fresh.made(h, book, made);
    return new Making.Made(made, true);
  }

  /** A later program may write the same map in other bytes. */
  private static boolean isSame(
      Handle h, String book, Edition latest, Draft now, EditionDocument document) {
    return latest.sha256().equals(document.sha256())
        || packed(h, book, latest.number())
            .map(p -> EditionDocument.unpacked(p).map())
            .filter(EditionDocument.published(now)::equals)
            .isPresent();
  }

  private static void insert(Handle h, String book, Edition made, byte[] packed) {
    long step =
        h.createQuery("select coalesce(max(seq), 0) from correction where book = :book")
            .bind("book", book)
            .mapTo(Long.class)
            .one();
    h.createUpdate(
            """
            insert into edition (book, number, made_at, who, revision, step, steps, pages, bars,
              sha256, bytes, document)
            values (:book, :number, :made_at, :who, :revision, :step, :steps, :pages, :bars, :sha256,
              :bytes, :document)
            """)
        .bind("book", book)
        .bind("number", made.number())
        .bind("made_at", made.madeAt().toString())
        .bind("who", made.who())
        .bind("revision", made.revision())
        .bind("step", step)
        .bind("steps", done(h, book, "<= ", step))
        .bind("pages", made.pages())
        .bind("bars", made.bars())
        .bind("sha256", made.sha256())
        .bind("bytes", made.bytes())
        .bind("document", packed)
        .execute();
  }

  @Override
  public void take(String book, Edition edition, String document) {
    EditionDocument kept = EditionDocument.of(document);
    Edition own =
        new Edition(
            edition.number(),
            edition.madeAt(),
            edition.who(),
            edition.revision(),
            edition.pages(),
            edition.bars(),
            kept.sha256(),
            kept.text().length);
    byte[] packed = kept.packed();
    jdbi.useTransaction(h -> insert(h, book, own, packed));
  }
}
