package org.barmap.work;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.barmap.library.Job;
import org.barmap.library.Library;
import org.barmap.library.live.Signals;

/**
 * Works through the queue, one page after the other.
 *
 * <p>Everything it does can be broken off anywhere: what is finished is in the library, what is not
 * is begun again, however often it was broken off.
 */
public final class Worker implements AutoCloseable {

  private static final System.Logger LOG = System.getLogger(Worker.class.getName());

  /** So often in a row a job may be begun without a page of it being finished. */
  private static final int TRIES = 30;

  /** An idle worker looks so often whether somebody left a job behind, and when nobody else can. */
  private static final int SHARED_SECONDS = 2;

  private static final int ALONE_SECONDS = 30;

  private static final String WAKE = "wake";
  private static final String SKIP = "skip";

  private final Library library;
  private final PageReader reader;
  private final Events events;
  private final ReadingCounts counts = new ReadingCounts();
  private final Settling settling;
  private final JobReading.Tools tools;
  private final LineReading lines;
  private final Semaphore wake = new Semaphore(0);
  private final String id = UUID.randomUUID().toString();
  private volatile boolean closed;

  private volatile Optional<Claim> claim = Optional.empty();

  private volatile String atHand = "";

  private Optional<Thread> thread = Optional.empty();

  /** Makes a worker that does nothing until it is started or cranked by hand. */
  public Worker(Library library, PageReader reader, Events events) {
    this.library = library;
    this.reader = reader;
    this.events = events;
    this.settling = new Settling(library, reader, events);
    this.lines = new LineReading(library, reader, events);
    PictureReading pictures = new PictureReading(library, reader, events, counts);
    this.tools = new JobReading.Tools(library, reader, events, pictures, settling, new HashMap<>());
    library.signals().hear(WAKE, text -> wake.release());
    library.signals().hear(Signals.GAP, text -> wake.release());
    library.signals().hear(SKIP, this::skipHere);
  }

  /** Returns what settles books; it may be used from any thread. */
  public Settling settling() {
    return settling;
  }

  /** Returns what reads lines that people draw; it may be used from any thread. */
  public LineReading lines() {
    return lines;
  }

  /** Returns what was read so far. */
  public ReadingCounts counts() {
    return counts;
  }

  /** Tells whether it works, or waits for work, in a thread of its own. */
  public synchronized boolean isAtWork() {
    // where several processes share a store, one may leave the reading to others
    return !closed && thread.map(Thread::isAlive).orElse(library.signals().isShared());
  }

  /** Counts the pages of a file, see {@link PageReader#count}; it may be used from any thread. */
  public int count(Path file) {
    return reader.count(file);
  }

  /**
   * Gives up the page that is being read, or opened, if it is of this book; from any thread.
   *
   * @return false when nothing of the book is being read
   */
  public boolean skip(String book) {
    if (skipHere(book)) {
      return true;
    }
    boolean elsewhere = library.signals().isShared() && isReading(book);
    if (elsewhere) {
      library.signals().send(SKIP, book);
    }
    return elsewhere;
  }

  private boolean isReading(String book) {
    return library.jobs().latest(book).filter(j -> j.state() == Job.State.RUNNING).isPresent();
  }

  private boolean skipHere(String book) {
    boolean mine = atHand.equals(book);
    if (mine) {
      reader.skip();
    }
    return mine;
  }

  /** Starts working in a thread of its own. */
  public synchronized void start() {
    Thread t = new Thread(this::loop, "barmap-reading");
    t.setDaemon(true);
    t.start();
    thread = Optional.of(t);
  }

  /** Says that there may be something to do, here or in another process. */
  public void wake() {
    wake.release();
    library.signals().send(WAKE, "");
  }

  private void loop() {
    while (!closed) {
      try {
        if (!runOne()) {
          wake.tryAcquire(
              library.signals().isShared() ? SHARED_SECONDS : ALONE_SECONDS, TimeUnit.SECONDS);
          wake.drainPermits();
        }
      } catch (InterruptedException e) {
        return;
      } catch (RuntimeException | Error e) {
        // e.g. a full disk: the job stays where it is
        LOG.log(System.Logger.Level.WARNING, "a reading job stopped", e);
        if (!pause()) {
          return;
        }
      }
    }
  }

  private boolean pause() {
    try {
      return !wake.tryAcquire(10, TimeUnit.SECONDS) || !closed;
    } catch (InterruptedException e) {
      return false;
    }
  }

  /**
   * Works on the next job, to its end or until others have their turn; false when there is none.
   */
  public boolean runOne() {
    library.sweepDaily();
    Optional<Claim> next = Claim.take(library, id);
    if (next.isEmpty()) {
      return false;
    }
    try (Claim taken = next.get()) {
      claim = next;
      run(taken.job());
    } finally {
      claim = Optional.empty();
    }
    return true;
  }

  private void run(Job job) {
    if (library.jobs().begin(job.id()) > TRIES) {
      Job end = library.jobs().finish(job.id(), Job.State.FAILED, "Given up after many tries");
      events.tell(end.book(), "job", JobView.of(end));
      return;
    }
    JobReading reading =
        new JobReading(tools, job, () -> closed || claim.map(Claim::isLost).orElse(false));
    atHand = job.book();
    try {
      reading.work();
    } catch (ReadingStoppedException e) {
      return; // it is gone on with when a program has time for it
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
      reading.failed(e);
    } finally {
      atHand = "";
    }
    if (reading.isGone()) {
      // what was written since its book was removed goes too
      library.sweep(job.book());
    }
  }

  /**
   * Says that nothing is to be begun any more; the page at hand is broken off where the reader can
   * do that, and read again another time, else read to its end.
   */
  public void stop() {
    closed = true;
    reader.stop();
    wake.release();
  }

  /**
   * Stops and waits until the page at hand is read, however long that takes and whoever interrupts:
   * its models must not be closed under it.
   */
  @Override
  public void close() {
    stop();
    boolean interrupted = false;
    while (thread.map(Thread::isAlive).orElse(false)) {
      try {
        thread.get().join();
      } catch (InterruptedException e) {
        interrupted = true;
      }
    }
    if (interrupted) {
      Thread.currentThread().interrupt();
    }
  }
}
