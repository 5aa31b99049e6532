package org.barmap.web.route;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.Executor;

/** What is sent to one listener, in its order; one who takes nothing any more holds up nobody. */
final class Line implements Runnable {

  /** A browser that leaves so many events lying has gone, or asks anew when it is back. */
  private static final int MOST_WAITING = 1_000;

  private final Executor threads;
  private final Deque<Runnable> waiting = new ArrayDeque<>();
  private boolean busy;

  /** Makes a line that sends with one of these threads at a time. */
  Line(Executor threads) {
    this.threads = threads;
  }

  /**
   * Sends something after all that waits.
   *
   * @return false when too much waits already
   */
  synchronized boolean send(Runnable step) {
    if (waiting.size() >= MOST_WAITING) {
      return false;
    }
    waiting.add(step);
    if (!busy) {
      busy = true;
      threads.execute(this);
    }
    return true;
  }

  @Override
  public void run() {
    for (Runnable step = next(); step != this; step = next()) {
      try {
        step.run();
      } catch (RuntimeException e) {
        // the listener has gone; what is to be done about it is done when its line closes
        continue;
      }
    }
  }

  /** Returns what to send next; this line itself when nothing waits. */
  private synchronized Runnable next() {
    Runnable step = waiting.poll();
    busy = step != null;
    return step == null ? this : step;
  }
}
