package org.barmap.library.sql;

import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import org.barmap.library.Replies;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/** Replies in a database. */
record SqlReplies(Jdbi jdbi, Clock clock) implements Replies {

  /** An edit may wait in a browser for a run of some weeks. */
  private static final Duration KEPT = Duration.ofDays(30);

  @Override
  public Optional<Reply> find(String key) {
    return jdbi.withHandle(h -> find(h, key));
  }

  private static Optional<Reply> find(Handle h, String key) {
    return h.createQuery("select request, revision from reply where key = :key")
        .bind("key", key)
        .map((row, context) -> new Reply(row.getString("request"), row.getLong("revision")))
        .findOne();
  }

  @Override
  public Optional<Reply> withdraw(String key) {
    return jdbi.inTransaction(
        h -> {
          insert(h, key, Reply.WITHDRAWN);
          return find(h, key).filter(r -> !r.isWithdrawn());
        });
  }

  @Override
  public void keep(String key, Reply reply) {
    jdbi.useTransaction(
        h -> {
          h.execute(
              "delete from reply where made_at < ?", clock.instant().minus(KEPT).toEpochMilli());
          insert(h, key, reply);
        });
  }

  private void insert(Handle h, String key, Reply reply) {
    h.createUpdate(
            "insert into reply (key, request, revision, made_at)"
                + " values (:key, :request, :revision, :at) on conflict do nothing")
        .bind("key", key)
        .bind("request", reply.request())
        .bind("revision", reply.revision())
        .bind("at", clock.instant().toEpochMilli())
        .execute();
  }
}
