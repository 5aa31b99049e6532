package org.barmap.web.operate;

import java.time.Duration;
import java.util.concurrent.TimeUnit;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/** Counts the requests at hand, so that who ends the service can wait for their answers. */
public final class AtHand extends Handler.Wrapper {

  private int requests;

  /** Counts none yet. */
  public AtHand() {}

  @Override
  public boolean handle(Request request, Response response, Callback callback) throws Exception {
    add(1);
    boolean handled = false;
    try {
      handled = super.handle(request, response, Callback.from(() -> add(-1), callback));
    } finally {
      if (!handled) {
        add(-1);
      }
    }
    return handled;
  }

  private synchronized void add(int more) {
    requests += more;
    notifyAll();
  }

  /** Waits until every request has its answer, at most for a time. */
  public synchronized void await(Duration most) throws InterruptedException {
    long end = System.nanoTime() + most.toNanos();
    long left = most.toNanos();
    while (requests > 0 && left > 0) {
      TimeUnit.NANOSECONDS.timedWait(this, left);
      left = end - System.nanoTime();
    }
  }
}
