package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.TaskRepository;
import com.github.kagkarlsson.scheduler.TaskResolver;
import com.github.kagkarlsson.scheduler.event.SchedulerListeners;
import com.github.kagkarlsson.scheduler.exceptions.ExecutionException;
import com.github.kagkarlsson.scheduler.jdbc.JdbcTaskRepository;
import com.github.kagkarlsson.scheduler.serializer.Serializer;
import com.github.kagkarlsson.scheduler.task.Execution;
import com.github.kagkarlsson.scheduler.task.ScheduledTaskInstance;
import com.github.kagkarlsson.scheduler.task.Task;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import com.github.kagkarlsson.shaded.jdbc.ConnectionSupplier;
import com.github.kagkarlsson.shaded.jdbc.DataSourceConnectionSupplier;
import com.github.kagkarlsson.shaded.jdbc.ExternallyManagedConnection;
import com.github.kagkarlsson.shaded.jdbc.JdbcRunner;
import com.github.kagkarlsson.shaded.jdbc.ThreadLocalTransactionContextProvider;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.jdbi.v3.core.Handle;

/**
 * The executions of books, as whoever is called by a name.
 *
 * @param task its name is that of the executions
 */
record TurnTable(Pace pace, TurnClock clock, Task<Void> task, String who) {

  /** The library's statements, on connections of its own or one of ours. */
  private static final class Joined extends JdbcTaskRepository {
    Joined(TurnTable of, ConnectionSupplier connections) {
      super(
          of.pace.database,
          DEFAULT_TABLE_NAME,
          new TaskResolver(SchedulerListeners.NOOP, of.clock, List.of(of.task)),
          new SchedulerName.Fixed(of.who),
          Serializer.DEFAULT_JAVA_SERIALIZER,
          new JdbcRunner(connections, new ThreadLocalTransactionContextProvider()),
          false,
          of.clock);
    }
  }

  /** The same in a transaction of ours. */
  private JdbcTaskRepository in(Handle h) {
    return new Joined(this, new ExternallyManagedConnection(h.getConnection()));
  }

  /** Picks the first one that is due. */
  Optional<Execution> pick(DataSource source) {
    TaskRepository table = new Joined(this, new DataSourceConnectionSupplier(source, true));
    return table.getDue(clock.now(), 1).stream()
        .findFirst()
        .flatMap(due -> table.pick(due, clock.now()));
  }

  /**
   * Puts a book into the row from a moment on; one that would be due later is brought forward.
   *
   * @param left see {@link HeadStart}
   */
  void put(Handle h, String book, Instant due, int left) {
    JdbcTaskRepository table = in(h);
    Instant at = place(h, due, left);
    TaskInstance<Void> turn = task.instance(book);
    Optional<Execution> there = table.getExecution(turn);
    if (there.isEmpty()) {
      table.createIfNotExists(new ScheduledTaskInstance(turn, at));
    } else if (!there.get().isPicked() && there.get().executionTime.isAfter(at)) {
      try {
        Execution e = there.get();
        table.reschedule(e, at, e.lastSuccess, e.lastFailure, e.consecutiveFailures);
      } catch (ExecutionException e) {
        // it was taken at this very moment: who ends that turn sees the job
      }
    }
  }

  /**
   * Puts a book whose turn went well at the end of the row, or of those that need few turns.
   *
   * @param left see {@link HeadStart}
   */
  void next(Handle h, Execution turn, Instant due, int left) {
    in(h).reschedule(turn, place(h, due, left), clock.now(h), turn.lastFailure, 0);
  }

  /** Puts a book whose turn failed into the row again. */
  void failed(Handle h, Execution turn, Instant due) {
    in(h)
        .reschedule(
            turn, later(h, due), turn.lastSuccess, clock.now(h), turn.consecutiveFailures + 1);
  }

  /** Puts a book back where it stood. */
  void back(Handle h, Execution turn) {
    in(h)
        .reschedule(
            turn, turn.executionTime, turn.lastSuccess, turn.lastFailure, turn.consecutiveFailures);
  }

  void remove(Handle h, Execution turn) {
    in(h).remove(turn);
  }

  /** What is put off is due at its time; what is due has its place by how much is left of it. */
  private Instant place(Handle h, Instant due, int left) {
    Instant now = clock.now(h);
    return due.isAfter(now) ? due : HeadStart.place(now, left);
  }

  private Instant later(Handle h, Instant due) {
    Instant now = clock.now(h);
    return due.isAfter(now) ? due : now;
  }
}
