package org.barmap.library.sql;

import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import org.barmap.library.Replies;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;
import org.jspecify.annotations.Nullable;

/** Replies in a database. */
final class SqlReplies implements Replies {

  /** An edit may wait in a browser for a run of some weeks. */
  private static final Duration KEPT = Duration.ofDays(30);

  private final Jdbi jdbi;
  private final Clock clock;

  /** The edit that a thread is about to make. */
  private final ThreadLocal<@Nullable Edit> own = new ThreadLocal<>();

  SqlReplies(Jdbi jdbi, Clock clock) {
    this.jdbi = jdbi;
    this.clock = clock;
  }

  /** One with a key, which may take several steps; the first one keeps the key. */
  private static final class Edit {
    private final String key;
    private final String request;
    private boolean kept;

    private Edit(String key, String request) {
      this.key = key;
      this.request = request;
    }
  }

  @Override
  public void begin(String key, String request) {
    own.set(new Edit(key, request));
  }

  @Override
  public void end() {
    own.remove();
  }

  /**
   * Keeps the key of the edit that this thread makes, where it has one, at the end of the
   * transaction that makes it. Whoever takes it back at this moment waits for that.
   *
   * @param revision that came of it; 0 where it has none
   * @throws TakenException where it was taken back, or made, by another process meanwhile
   */
  void made(Handle h, long revision) {
    Edit edit = own.get();
    if (edit == null) {
      return;
    }
    if (edit.kept) {
      moveOn(h, edit.key, new Reply(edit.request, revision));
    } else if (!insert(h, edit.key, new Reply(edit.request, revision))) {
      throw new TakenException();
    }
    edit.kept = true;
  }

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
          if (!insert(h, key, reply)) {
            moveOn(h, key, reply);
          }
        });
  }

  /** Returns whether there was none with this key. */
  private boolean insert(Handle h, String key, Reply reply) {
    return h.createUpdate(
                "insert into reply (key, request, revision, made_at)"
                    + " values (:key, :request, :revision, :at) on conflict do nothing")
            .bind("key", key)
            .bind("request", reply.request())
            .bind("revision", reply.revision())
            .bind("at", clock.instant().toEpochMilli())
            .execute()
        == 1;
  }

  /** What came of an edit at its end counts. */
  private static void moveOn(Handle h, String key, Reply reply) {
    h.createUpdate("update reply set revision = :revision where key = :key and request = :request")
        .bind("key", key)
        .bind("request", reply.request())
        .bind("revision", reply.revision())
        .execute();
  }
}
