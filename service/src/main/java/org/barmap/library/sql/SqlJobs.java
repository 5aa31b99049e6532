package org.barmap.library.sql;

import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.jdbi.v3.core.Handle;

/** The queue in a database. */
record SqlJobs(Store store, SqlPages pages, Clock clock) implements Jobs {

  @Override
  public Job add(String book, List<Upload> uploads) {
    uploads.forEach(upload -> pages.keep(book, upload.file()));
    return store
        .jdbi()
        .inTransaction(
            h -> {
              String id = Ids.make();
              h.createUpdate(
                      """
                  insert into job (id, book, state, of, text, created_at, turn)
                  values (:id, :book, 'waiting', :of, 'Waiting', :now,
                    (select coalesce(min(turn), 0) from job where state in ('waiting', 'running')))
                  """)
                  .bind("id", id)
                  .bind("book", book)
                  .bind("of", uploads.size())
                  .bind("now", clock.instant().toString())
                  .execute();
              for (Upload upload : uploads) {
                h.createUpdate(
                        "insert into upload (id, job, name, file) values (:id, :job, :name, :file)")
                    .bind("id", upload.id())
                    .bind("job", id)
                    .bind("name", upload.name())
                    .bind("file", String.valueOf(upload.file().getFileName()))
                    .execute();
              }
              return find(h, id);
            });
  }

  @Override
  public Job add(String book) {
    return add(book, List.of());
  }

  private static Job find(Handle h, String id) {
    return h.createQuery("select * from job where id = :id").bind("id", id).mapTo(Job.class).one();
  }

  /** A job that may be taken now; {@code :stale} is when whoever is gone said something last. */
  private static final String FREE =
      """
      from job j join book b on b.id = j.book
      where j.state in ('running', 'waiting') and b.discarded_at is null and j.due_at <= :now
        and (j.worker is null or j.worker = :worker or j.beat_at < :stale)
        and not exists (select 1 from job o where o.book = j.book and o.id <> j.id
          and o.state in ('running', 'waiting') and o.worker is not null and o.worker <> :worker and o.beat_at >= :stale)
      """;

  @Override
  public Optional<Job> take(String worker) {
    return store
        .jdbi()
        .inTransaction(
            h -> {
              // two that ask at once must not get two jobs of one book
              store.hold(h, "jobs");
              long now = store.millis(h, clock);
              return h.createQuery(
                      """
                      update job set worker = :worker, beat_at = :now where seq =
                        (select j.seq %s order by j.failures > 0, j.turn, j.state, j.seq limit 1)
                      returning *
                      """
                          .formatted(FREE))
                  .bind("worker", worker)
                  .bind("now", now)
                  .bind("stale", now - LEASE.toMillis())
                  .mapTo(Job.class)
                  .findOne();
            });
  }

  @Override
  public boolean keep(String job, String worker) {
    return store
        .jdbi()
        .inTransaction(
            h ->
                h.execute(
                        "update job set beat_at = ? where id = ? and worker = ?",
                        store.millis(h, clock),
                        job,
                        worker)
                    == 1);
  }

  @Override
  public void leave(String job, String worker) {
    store
        .jdbi()
        .useTransaction(
            h ->
                h.execute("update job set worker = null where id = ? and worker = ?", job, worker));
  }

  /** Lets go of all jobs: nobody is at work. */
  void leaveAll() {
    store
        .jdbi()
        .useTransaction(h -> h.execute("update job set worker = null where worker is not null"));
  }

  @Override
  public boolean othersWait(String job) {
    return store
        .jdbi()
        .withHandle(
            h -> {
              long now = store.millis(h, clock);
              return h.createQuery(
                          """
                          select count(*) %s and j.failures = 0
                            and j.book <> (select book from job where id = :job)
                            and j.turn <= (select turn from job where id = :job)
                          """
                              .formatted(FREE))
                      .bind("job", job)
                      .bind("worker", "")
                      .bind("now", now)
                      .bind("stale", now - LEASE.toMillis())
                      .mapTo(Integer.class)
                      .one()
                  > 0;
            });
  }

  @Override
  public void hadTurn(String job) {
    store.jdbi().useTransaction(h -> h.execute("update job set turn = turn + 1 where id = ?", job));
  }

  @Override
  public int waiting(String book) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(
                        """
                    select count(*) from upload u join job j on j.id = u.job
                    where j.book = :book and u.open = 1
                    """)
                    .bind("book", book)
                    .mapTo(Integer.class)
                    .one());
  }

  @Override
  public List<Upload> uploads(String job) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(
                        """
                    select u.id, u.name, u.file, j.book from upload u join job j on j.id = u.job
                    where u.job = :job and u.open = 1 order by u.seq
                    """)
                    .bind("job", job)
                    .map(
                        (row, context) ->
                            new Upload(
                                row.getString("id"),
                                row.getString("name"),
                                pages.folder(row.getString("book")).resolve(row.getString("file"))))
                    .list());
  }

  @Override
  public Job progress(String job, int done, int of, String text) {
    return update(job, Job.State.RUNNING, Optional.of(done), Optional.of(of), text);
  }

  @Override
  public Job finish(String job, Job.State state, String text) {
    return update(job, state, Optional.empty(), Optional.empty(), text);
  }

  private Job update(
      String job, Job.State state, Optional<Integer> done, Optional<Integer> of, String text) {
    return store
        .jdbi()
        .inTransaction(
            h -> {
              h.createUpdate(
                      """
                  update job set state = :state, done = coalesce(:done, done),
                    of = coalesce(:of, of), text = :text,
                    attempts = case when :done > done then 0 else attempts end
                  where id = :id
                  """)
                  .bind("id", job)
                  .bind("state", state.word())
                  .bind("done", done)
                  .bind("of", of)
                  .bind("text", text)
                  .execute();
              return find(h, job);
            });
  }

  @Override
  public Optional<Job> putOff(String job, Duration pause, String text) {
    return store
        .jdbi()
        .inTransaction(
            h -> {
              int there =
                  h.createUpdate(
                          """
                      update job set state = 'waiting', text = :text, failures = failures + 1,
                        due_at = :due where id = :id
                      """)
                      .bind("id", job)
                      .bind("text", text)
                      .bind("due", store.millis(h, clock) + pause.toMillis())
                      .execute();
              return there == 1 ? Optional.of(find(h, job)) : Optional.empty();
            });
  }

  @Override
  public int begin(String job) {
    return store
        .jdbi()
        .inTransaction(
            h -> {
              h.createUpdate(
                      "update job set state = 'running', attempts = attempts + 1 where id = :id")
                  .bind("id", job)
                  .execute();
              return h.createQuery("select attempts from job where id = :id")
                  .bind("id", job)
                  .mapTo(Integer.class)
                  .one();
            });
  }

  @Override
  public Counts counts() {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(
                        """
                    select coalesce(sum(case when state = 'waiting' then 1 else 0 end), 0) waiting,
                      coalesce(sum(case when state = 'running' then 1 else 0 end), 0) running,
                      coalesce(sum(case when state = 'failed' then 1 else 0 end), 0) failed
                    from job j join book b on b.id = j.book
                    where b.discarded_at is null and (j.state <> 'failed'
                      or j.seq = (select max(l.seq) from job l where l.book = j.book))
                    """)
                    .map(
                        (row, context) ->
                            new Counts(
                                row.getInt("waiting"), row.getInt("running"), row.getInt("failed")))
                    .one());
  }

  @Override
  public Optional<Job> latest(String book) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery("select * from job where book = :book order by seq desc limit 1")
                    .bind("book", book)
                    .mapTo(Job.class)
                    .findOne());
  }
}
