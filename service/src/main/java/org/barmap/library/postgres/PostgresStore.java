package org.barmap.library.postgres;

import java.time.Clock;
import java.util.Optional;
import javax.sql.DataSource;
import org.barmap.library.keep.Kept;
import org.barmap.library.sql.Keys;
import org.barmap.library.sql.Rows;
import org.barmap.library.sql.Store;
import org.barmap.library.sql.turn.Pace;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.HandleCallback;
import org.jdbi.v3.core.Jdbi;
import org.jdbi.v3.core.transaction.TransactionIsolationLevel;

/** A PostgreSQL database: as many writers at a time as there are books. */
record PostgresStore(Jdbi jdbi, DataSource source) implements Store {

  PostgresStore(DataSource source) {
    this(Rows.mapped(Jdbi.create(source)).registerArgument(new StorableText()), source);
  }

  @Override
  public Pace pace() {
    return Pace.SHARED;
  }

  @Override
  public <T> T view(HandleCallback<T, RuntimeException> work) {
    return jdbi.inTransaction(TransactionIsolationLevel.REPEATABLE_READ, work);
  }

  @Override
  public <T> T edit(String book, HandleCallback<T, RuntimeException> work) {
    return jdbi.inTransaction(
        h -> {
          h.createQuery("select 1 from book where id = :id for update")
              .bind("id", book)
              .mapTo(Integer.class)
              .findOne();
          return work.withHandle(h);
        });
  }

  @Override
  public void hold(Handle h, String name) {
    h.createQuery("select pg_advisory_xact_lock(hashtextextended(:name, 0))")
        .bind("name", name)
        .map((row, context) -> true)
        .one();
  }

  @Override
  public long millis(Handle h, Clock clock) {
    return h.createQuery(
            "select (extract(epoch from clock_timestamp()) * 1000)::bigint + coalesce("
                + "(select value::bigint from keeping where name = :name), 0)")
        .bind("name", Keys.CLOCK_BACK)
        .mapTo(Long.class)
        .one();
  }

  @Override
  public boolean goOnFrom(long millis, Clock clock) {
    return jdbi.inTransaction(
        h -> {
          hold(h, Keys.CLOCK_BACK);
          long now = millis(h, clock);
          if (now < millis) { // else another process said so before
            long back = Keys.find(h, Keys.CLOCK_BACK).map(Long::parseLong).orElse(0L);
            Keys.set(h, Keys.CLOCK_BACK, Optional.of(Long.toString(back + millis - now)));
          }
          return true;
        });
  }

  @Override
  public long millis(Clock clock) {
    return jdbi.withHandle(h -> millis(h, clock));
  }

  @Override
  public void shrink() {
    // its own vacuum gives the space to what comes next
  }

  @Override
  public void forget() {
    // its log goes by its own rules
  }

  @Override
  public Kept.Amount size() {
    long bytes =
        jdbi.withHandle(
            h ->
                h.createQuery("select pg_database_size(current_database())")
                    .mapTo(Long.class)
                    .one());
    return new Kept.Amount(1, bytes);
  }
}
