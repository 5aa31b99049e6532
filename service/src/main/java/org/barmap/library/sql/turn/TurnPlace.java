package org.barmap.library.sql.turn;

import com.github.kagkarlsson.scheduler.CurrentlyExecuting;
import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerBuilder;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.Waiter;
import com.github.kagkarlsson.scheduler.event.AbstractSchedulerListener;
import com.github.kagkarlsson.scheduler.logging.LogLevel;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.Execution;
import com.github.kagkarlsson.scheduler.task.ExecutionContext;
import com.github.kagkarlsson.scheduler.task.Task;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ThreadFactory;
import org.barmap.library.turn.Turn;
import org.barmap.library.turn.Turns;

/** A scheduler of one thread, which has one book at a time. */
final class TurnPlace implements Turns.Place {

  /** One beats, one looks for who is gone. */
  private static final int HOUSEKEEPERS = 2;

  /** A page is never broken off by force: nobody waits for as long as this. */
  private static final Duration FOR_EVER = Duration.ofDays(365);

  private final SqlTurns row;
  private final Turns.Taker taker;
  private volatile Optional<Scheduler> scheduler = Optional.empty();

  TurnPlace(SqlTurns row, Turns.Taker taker) {
    this.row = row;
    this.taker = taker;
  }

  @Override
  public boolean one() {
    Optional<Execution> mine = row.table().pick(row.source());
    mine.ifPresent(this::take);
    return mine.isPresent();
  }

  private void take(Execution mine) {
    SqlTurns.Outcome outcome;
    try {
      outcome = SqlTurns.of(taker.take(new Turn(mine.taskInstance.getId(), () -> false)));
    } catch (Turn.FailedException e) {
      outcome = SqlTurns.Outcome.FAILED;
    }
    row.end(mine, outcome);
  }

  @Override
  public synchronized void begin() {
    Scheduler made = new Unhurried(row, task(), taker).made();
    scheduler = Optional.of(made);
    made.start();
  }

  private Task<Void> task() {
    return Tasks.custom(SqlTurns.READ, Void.class)
        .onFailure(
            (complete, operations) ->
                row.end(complete.getExecution(), outcome(complete.getCause())))
        .onDeadExecution(
            (complete, operations) -> {
              // it goes where it stood: at the head of the row
              operations.reschedule(complete, complete.getExecution().executionTime);
              row.wake();
            })
        .execute((instance, context) -> take(context));
  }

  private static SqlTurns.Outcome outcome(Optional<Throwable> cause) {
    return cause.filter(Turn.FailedException.class::isInstance).isPresent()
        ? SqlTurns.Outcome.FAILED
        : SqlTurns.Outcome.CUT_SHORT;
  }

  private CompletionHandler<Void> take(ExecutionContext context) {
    CurrentlyExecuting now = context.getCurrentlyExecuting();
    Turn turn = new Turn(context.getExecution().taskInstance.getId(), () -> isLost(now));
    SqlTurns.Outcome outcome = SqlTurns.of(taker.take(turn));
    return (complete, operations) -> row.end(complete.getExecution(), outcome);
  }

  /** A beat that found no execution of ours, or none for as long as makes one count as gone. */
  private static boolean isLost(CurrentlyExecuting now) {
    return now.getHeartbeatState().getFailedHeartbeats() > 0
        || now.getHeartbeatState().getFractionDead() >= 1;
  }

  void wake() {
    scheduler.ifPresent(Scheduler::triggerCheckForDueExecutions);
  }

  @Override
  public boolean isAtWork() {
    return scheduler
        .map(Scheduler::getSchedulerState)
        .filter(s -> s.isStarted() && !s.isPaused() && !s.isShuttingDown())
        .isPresent();
  }

  @Override
  public void stop() {
    scheduler.ifPresent(Scheduler::pause);
  }

  /** Ends without waiting. */
  void abandon() {
    ending();
  }

  private synchronized Optional<Thread> ending() {
    stop();
    row.leave(this);
    Optional<Thread> ending = scheduler.map(s -> DAEMONS.newThread(s::stop));
    scheduler = Optional.empty();
    ending.ifPresent(Thread::start);
    return ending;
  }

  @Override
  public void close() {
    // in a thread of its own, for whoever is interrupted would break off the page at hand
    Optional<Thread> ending = ending();
    boolean interrupted = false;
    while (ending.map(Thread::isAlive).orElse(false)) {
      try {
        ending.get().join();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }

  private static final ThreadFactory DAEMONS =
      work -> {
        Thread thread = new Thread(work, "barmap-reading");
        thread.setDaemon(true);
        return thread;
      };

  /** A scheduler whose pauses are counted by no clock that anybody sets. */
  private static final class Unhurried extends SchedulerBuilder {

    Unhurried(SqlTurns row, Task<Void> task, Turns.Taker taker) {
      super(row.source(), List.of(task));
      Pace pace = row.pace();
      clock(row.clock());
      jdbcCustomization(pace.database);
      schedulerName(new SchedulerName.Fixed(UUID.randomUUID().toString()));
      threads(1);
      executorService(Executors.newSingleThreadExecutor(DAEMONS));
      dueExecutor(Executors.newSingleThreadExecutor(DAEMONS));
      housekeeperExecutor(Executors.newScheduledThreadPool(HOUSEKEEPERS, DAEMONS));
      pollingInterval(pace.look);
      heartbeatInterval(pace.beat);
      missedHeartbeatsLimit(Pace.SILENT_BEATS);
      shutdownMaxWait(FOR_EVER);
      // failures are logged where they are understood
      failureLogging(LogLevel.DEBUG, true);
      addSchedulerListener(
          new AbstractSchedulerListener() {
            @Override
            public void onSchedulerEvent(SchedulerEventType type) {
              if (type == SchedulerEventType.RAN_DETECT_DEAD) {
                taker.meanwhile();
              }
            }
          });
      if (pace.locksAndFetches) {
        pollUsingLockAndFetch(0, 1);
      } else {
        pollUsingFetch(0, 1);
      }
    }

    Scheduler made() {
      return build();
    }

    @Override
    protected Waiter buildWaiter() {
      return new Waiter(poolingInterval, () -> Instant.EPOCH.plusNanos(System.nanoTime()));
    }
  }
}
