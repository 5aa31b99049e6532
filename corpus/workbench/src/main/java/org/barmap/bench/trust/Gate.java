package org.barmap.bench.trust;

import java.io.InterruptedIOException;

/** Who asks waits here while the service is down. */
final class Gate {

  private boolean open = true;
  private boolean over;
  private int times;

  synchronized void shut() {
    open = false;
  }

  synchronized void open() {
    open = true;
    times++;
    notifyAll();
  }

  synchronized void end() {
    over = true;
    notifyAll();
  }

  synchronized boolean isOver() {
    return over;
  }

  /** Waits until it is open; returns how often it was opened. */
  synchronized int await() throws InterruptedIOException {
    return awaitAfter(-1);
  }

  /** Waits until it was opened again, or never will be. */
  synchronized int awaitAfter(int before) throws InterruptedIOException {
    try {
      while (!over && (!open || times == before)) {
        wait();
      }
      return times;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new InterruptedIOException();
    }
  }
}
