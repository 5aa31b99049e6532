package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.exceptions.ExecutionException;
import com.github.kagkarlsson.scheduler.jdbc.JdbcTaskRepository;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.Execution;
import com.github.kagkarlsson.scheduler.task.Task;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CopyOnWriteArrayList;
import javax.sql.DataSource;
import org.barmap.library.turn.Turn;
import org.barmap.library.turn.Turns;
import org.jdbi.v3.core.Handle;

/** The row in a database. */
public final class SqlTurns implements Turns {

  private static final System.Logger LOG = System.getLogger(SqlTurns.class.getName());

  /** What fails for no fault of the book, as a full disk, may be over by then. */
  private static final Duration SOON = Duration.ofSeconds(10);

  /** Names the executions of reading. */
  static final String READ = "read";

  private static final String TABLE = JdbcTaskRepository.DEFAULT_TABLE_NAME;

  private final DataSource source;
  private final Pace pace;
  private final TurnClock clock;
  private final Ledger ledger;
  private final TurnTable table;
  private final LongWait longWait;
  private final List<TurnPlace> places = new CopyOnWriteArrayList<>();

  /** Makes it. */
  public SqlTurns(DataSource source, Pace pace, TurnClock clock, Ledger ledger) {
    this.source = source;
    this.pace = pace;
    this.clock = clock;
    this.ledger = ledger;
    this.longWait = new LongWait(source, pace);
    Task<Void> named = Tasks.custom(READ, Void.class).execute((turn, context) -> nothing());
    this.table = new TurnTable(pace, clock, named, UUID.randomUUID().toString());
  }

  private static CompletionHandler<Void> nothing() {
    return (complete, operations) -> {};
  }

  DataSource source() {
    return source;
  }

  Pace pace() {
    return pace;
  }

  TurnClock clock() {
    return clock;
  }

  TurnTable table() {
    return table;
  }

  /** Returns the moment by which jobs are put off. */
  public Instant now(Handle h) {
    return clock.now(h);
  }

  /** Puts a book into the row, in the transaction that gives it a job; wakes whoever idles here. */
  public void put(Handle h, String book) {
    Optional<Instant> due = ledger.due(h, book);
    due.ifPresent(at -> table.put(h, book, at, ledger.left(h, book)));
    h.afterCommit(this::wake);
  }

  /** Makes the row anew of the books that have open jobs, while nobody is at work. */
  public void begin(Handle h, List<String> open) {
    h.createUpdate(
            "update "
                + TABLE
                + " set picked = :free, picked_by = null, last_heartbeat = null,"
                + " version = version + 1 where picked = :taken")
        .bind("free", false)
        .bind("taken", true)
        .execute();
    List<String> there =
        h.createQuery("select task_instance from " + TABLE).mapTo(String.class).list();
    there.stream()
        .filter(book -> ledger.due(h, book).isEmpty())
        .forEach(book -> h.execute("delete from " + TABLE + " where task_instance = ?", book));
    open.forEach(book -> put(h, book));
  }

  /** How a turn ended. */
  enum Outcome {
    DONE,
    HANDED_BACK,
    FAILED,
    /** For no fault of the book. */
    CUT_SHORT
  }

  static Outcome of(Turn.End end) {
    return end == Turn.End.DONE ? Outcome.DONE : Outcome.HANDED_BACK;
  }

  /** Ends a turn: its book goes to where it stands then, or out of the row. */
  void end(Execution turn, Outcome outcome) {
    String book = turn.taskInstance.getId();
    longWait.turn(clock.now());
    try {
      ledger.edit(book, h -> end(h, turn, outcome));
    } catch (ExecutionException e) {
      LOG.log(System.Logger.Level.DEBUG, "a turn was given to others meanwhile, or is no more", e);
    }
  }

  private void end(Handle h, Execution turn, Outcome outcome) {
    String book = turn.taskInstance.getId();
    if (outcome != Outcome.CUT_SHORT) {
      ledger.ended(h, book);
    }
    Optional<Instant> due = ledger.due(h, book);
    if (due.isEmpty()) {
      table.remove(h, turn);
      return;
    }
    switch (outcome) {
      case HANDED_BACK -> table.back(h, turn);
      case FAILED -> table.failed(h, turn, due.get());
      case CUT_SHORT -> table.failed(h, turn, latest(due.get(), clock.now(h).plus(SOON)));
      case DONE -> table.next(h, turn, due.get(), ledger.left(h, book));
    }
    h.afterCommit(this::wake);
  }

  private static Instant latest(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  @Override
  public Place join(Taker taker) {
    TurnPlace place = new TurnPlace(this, taker);
    places.add(place);
    return place;
  }

  void leave(TurnPlace place) {
    places.remove(place);
  }

  @Override
  public void wake() {
    places.forEach(TurnPlace::wake);
  }

  /** Ends what was not closed: the store goes. */
  public void close() {
    places.forEach(TurnPlace::abandon);
  }
}
