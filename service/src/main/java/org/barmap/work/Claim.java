package org.barmap.work;

import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.Library;

/**
 * A job that is a worker's own until it lets go of it. Where other processes work too it says again
 * and again that it is still at it; one that was killed says nothing, and its job is taken over.
 */
final class Claim implements AutoCloseable {

  private static final System.Logger LOG = System.getLogger(Claim.class.getName());

  /** So often is said that somebody is at a job while it stays with him. */
  private static final int BEATS = 4;

  private final Jobs jobs;
  private final Job job;
  private final String worker;
  private final CountDownLatch over = new CountDownLatch(1);
  private volatile boolean lost;

  private Claim(Jobs jobs, Job job, String worker) {
    this.jobs = jobs;
    this.job = job;
    this.worker = worker;
  }

  /** Takes the next job; empty when there is none for this worker. */
  static Optional<Claim> take(Library library, String worker) {
    Optional<Claim> taken =
        library.jobs().take(worker).map(job -> new Claim(library.jobs(), job, worker));
    if (library.signals().isShared()) {
      taken.ifPresent(Claim::begin);
    }
    return taken;
  }

  private void begin() {
    Thread thread = new Thread(this::beat, "barmap-claim");
    thread.setDaemon(true);
    thread.start();
  }

  private void beat() {
    long pause = Jobs.LEASE.toMillis() / BEATS;
    long heard = System.nanoTime();
    try {
      while (!lost && !over.await(pause, TimeUnit.MILLISECONDS)) {
        try {
          lost = !jobs.keep(job.id(), worker);
          heard = System.nanoTime();
        } catch (RuntimeException e) {
          LOG.log(System.Logger.Level.DEBUG, "a job can't be kept just now", e);
          lost = System.nanoTime() - heard > Jobs.LEASE.toNanos();
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  Job job() {
    return job;
  }

  /** Tells whether somebody else may have it by now. */
  boolean isLost() {
    return lost;
  }

  @Override
  public void close() {
    over.countDown();
    try {
      jobs.leave(job.id(), worker);
    } catch (RuntimeException e) {
      // the store is away; others take it over when nothing was said for a while
      LOG.log(System.Logger.Level.DEBUG, "a job is let go of later", e);
    }
  }
}
