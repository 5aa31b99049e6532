package org.barmap.library.sql;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.sql.turn.Ledger;
import org.barmap.library.sql.turn.SqlTurns;
import org.jdbi.v3.core.Handle;

/** What is to be read of books, in a database. */
record SqlJobs(Store store, SqlPages pages, Row row) implements Jobs {

  /** Where jobs are put in, in the transaction of what they are for: a kill parts no two. */
  record Row(SqlTurns turns, Clock clock) {

    /** Writes a job, which has no turn yet; returns its id. */
    private String insert(Handle h, String book, int of) {
      String id = Ids.make();
      h.createUpdate(
              """
              insert into job (id, book, state, of, text, created_at)
              values (:id, :book, 'waiting', :of, 'Waiting', :now)
              """)
          .bind("id", id)
          .bind("book", book)
          .bind("of", of)
          .bind("now", clock.instant().toString())
          .execute();
      return id;
    }

    /** Gives a book its turn, when all that is to be read of it is written. */
    private void put(Handle h, String book) {
      turns.put(h, book);
    }

    /** Queues a book whose pages wait to be read again. */
    void add(Handle h, String book) {
      insert(h, book, 0);
      put(h, book);
    }
  }

  @Override
  public Job add(String book, List<Upload> uploads) {
    uploads.forEach(upload -> pages.keep(book, upload.file()));
    return store.edit(
        book,
        h -> {
          String id = row.insert(h, book, uploads.size());
          for (Upload upload : uploads) {
            h.createUpdate(
                    "insert into upload (id, job, name, file) values (:id, :job, :name, :file)")
                .bind("id", upload.id())
                .bind("job", id)
                .bind("name", upload.name())
                .bind("file", String.valueOf(upload.file().getFileName()))
                .execute();
          }
          row.put(h, book);
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

  private static final String OPEN =
      """
      from job j join book b on b.id = j.book
      where j.state in ('running', 'waiting') and b.discarded_at is null
      """;

  @Override
  public Optional<Job> next(String book) {
    return store
        .jdbi()
        .withHandle(
            h ->
                h.createQuery(
                        "select j.* "
                            + OPEN
                            + " and j.book = :book and j.due_at <= :now"
                            + " order by j.failures > 0, j.seq limit 1")
                    .bind("book", book)
                    .bind("now", row.turns.now(h).toEpochMilli())
                    .mapTo(Job.class)
                    .findOne());
  }

  /** What the row of books must know of jobs. */
  record Open(Store store) implements Ledger {

    @Override
    public void edit(String book, Consumer<Handle> work) {
      store.edit(
          book,
          h -> {
            work.accept(h);
            return book;
          });
    }

    @Override
    public Optional<Instant> due(Handle h, String book) {
      return h.createQuery("select j.due_at " + OPEN + " and j.book = :book order by 1 limit 1")
          .bind("book", book)
          .mapTo(Long.class)
          .findOne()
          .map(Instant::ofEpochMilli);
    }

    @Override
    public int left(Handle h, String book) {
      return h.createQuery(
              """
              select (select count(*) from page where book = :book and state in ('waiting', 'reading'))
                + (select count(*) from upload u join job j on j.id = u.job
                   where j.book = :book and u.open = 1)
              """)
          .bind("book", book)
          .mapTo(Integer.class)
          .one();
    }

    @Override
    public void ended(Handle h, String book) {
      h.execute("update job set attempts = 0 where book = ? and attempts > 0", book);
    }
  }

  /** Makes the row of books anew: nobody is at work. */
  void begin() {
    store
        .jdbi()
        .useTransaction(
            h ->
                row.turns.begin(
                    h,
                    h.createQuery("select j.book, min(j.seq) " + OPEN + " group by 1 order by 2")
                        .map((row, context) -> row.getString(1))
                        .list()));
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
                  where id = :id and state in ('waiting', 'running')
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
                      .bind("due", row.turns.now(h).plus(pause).toEpochMilli())
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
                // one that waits for another try is not over because a later one is
                h.createQuery(
                        """
                        select * from job where book = :book
                        order by state in ('waiting', 'running') desc, seq desc limit 1
                        """)
                    .bind("book", book)
                    .mapTo(Job.class)
                    .findOne());
  }
}
