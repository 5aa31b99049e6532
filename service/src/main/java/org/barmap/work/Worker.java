package org.barmap.work;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.live.Away;
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

  /** The first pages of a job show at once, later ones a few at a time: settling takes the book. */
  private static final int SETTLED_AT_ONCE = 10;

  private static final int SETTLED_EVERY = 6;

  /** An idle worker looks so often whether somebody left a job behind, and when nobody else can. */
  private static final int SHARED_SECONDS = 2;

  private static final int ALONE_SECONDS = 30;

  private static final String WAKE = "wake";
  private static final String SKIP = "skip";

  private final Library library;
  private final PageReader reader;
  private final PictureReading pictures;
  private final Events events;
  private final ReadingCounts counts = new ReadingCounts();
  private final Settling settling;
  private final LineReading lines;
  private final Semaphore wake = new Semaphore(0);
  private final String id = UUID.randomUUID().toString();
  private volatile boolean closed;

  /** How many pages of each job at hand this worker has read. */
  private final Map<String, Integer> readOf = new HashMap<>();

  private volatile Optional<Claim> claim = Optional.empty();

  private volatile String doing = "";

  private volatile String atHand = "";

  private Optional<Thread> thread = Optional.empty();

  /** Makes a worker that does nothing until it is started or cranked by hand. */
  public Worker(Library library, PageReader reader, Events events) {
    this.library = library;
    this.reader = reader;
    this.pictures = new PictureReading(library, reader, events, counts);
    this.events = events;
    this.settling = new Settling(library, reader, events);
    this.lines = new LineReading(library, reader, events);
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
    return !closed && thread.map(Thread::isAlive).orElse(false);
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
      tell(library.jobs().finish(job.id(), Job.State.FAILED, "Given up after many tries"));
      return;
    }
    doing = "Beginning to read";
    atHand = job.book();
    try {
      work(job);
    } catch (ReadingStoppedException e) {
      return; // it is gone on with when a program has time for it
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError e) {
      failed(job, e);
    } finally {
      atHand = "";
    }
    if (isGone(job)) {
      // what was written since its book was removed goes too
      library.sweep(job.book());
    }
  }

  private void work(Job job) {
    String book = job.book();
    List<Jobs.Upload> uploads = library.jobs().uploads(job.id());
    for (Jobs.Upload upload : uploads) {
      if (stopped(book) || upload != uploads.get(0) && passedOn(job)) {
        return;
      }
      progress(job, "Opening " + upload.name());
      open(book, upload);
    }
    if (readWaiting(job) && !stopped(book)) {
      readOf.remove(job.id());
      doing = "Putting together what was read";
      if (!settling.settle(book)) {
        // before this job ends, so that a kill loses neither
        library.jobs().add(book);
      }
      tell(library.jobs().finish(job.id(), Job.State.DONE, summary(book)));
    }
  }

  /** A job that fails is put off, so that other books go first, and given up in the end. */
  private void failed(Job job, Throwable e) {
    if (Away.is(e)) {
      // it is not the job's fault: gone on with when the store answers
      throw new IllegalStateException(doing + " was cut short", e);
    }
    if (isGone(job)) {
      return;
    }
    LOG.log(System.Logger.Level.WARNING, "failed: {0}", doing);
    LOG.log(System.Logger.Level.WARNING, "a step of a reading job failed", e);
    Optional<Duration> pause = RetryPolicy.STANDARD.pauseAfter(job.failures() + 1);
    String advice = RetryPolicy.advice(e);
    if (pause.isPresent()) {
      String text =
          "%s failed; next try in %s. If it fails again, %s."
              .formatted(doing, RetryPolicy.words(pause.get()), advice);
      library.jobs().putOff(job.id(), pause.get(), text).ifPresent(this::tell);
    } else {
      String text =
          "Given up: %s failed again and again. Please %s, then add the pages again."
              .formatted(doing, advice);
      tell(library.jobs().finish(job.id(), Job.State.FAILED, text));
    }
  }

  /** Tells whether a job went with its book. */
  private boolean isGone(Job job) {
    return library.jobs().latest(job.book()).isEmpty();
  }

  /** A book that was put into the bin meanwhile is gone on with when it is brought back. */
  private boolean stopped(String book) {
    return closed || claim.map(Claim::isLost).orElse(false) || library.books().find(book).isEmpty();
  }

  private void open(String book, Jobs.Upload upload) {
    try {
      new Opening(library, reader, book).open(upload);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Reads page by page; false when not all was read, since others have their turn or it ends. */
  private boolean readWaiting(Job job) {
    for (boolean first = true; !stopped(job.book()); first = false) {
      List<PageCard> pages = library.pages().all(job.book());
      Optional<PageCard> next =
          pages.stream()
              .filter(p -> p.state() == PageState.WAITING || p.state() == PageState.READING)
              .findFirst();
      if (next.isEmpty()) {
        return true;
      }
      if (!first && passedOn(job)) {
        return false;
      }
      int all = pages.size() + library.jobs().waiting(job.book());
      progress(job, "Reading page " + next.get().index() + " of " + all);
      pictures.read(job.book(), next.get());
      int read = readOf.merge(job.id(), 1, Integer::sum);
      if (read <= SETTLED_AT_ONCE || read % SETTLED_EVERY == 0) {
        settling.settle(job.book());
      }
    }
    return false;
  }

  /** After every step the books that wait have their turn: a long one holds up no short one. */
  private boolean passedOn(Job job) {
    boolean others = library.jobs().othersWait(job.id());
    if (others) {
      library.jobs().hadTurn(job.id());
    }
    return others;
  }

  private void progress(Job job, String text) {
    doing = text;
    List<PageCard> pages = library.pages().all(job.book());
    int waiting = library.jobs().waiting(job.book());
    long done =
        pages.stream()
            .filter(p -> p.state() == PageState.READ || p.state() == PageState.FAILED)
            .count();
    tell(library.jobs().progress(job.id(), (int) done, pages.size() + waiting, text));
  }

  private String summary(String book) {
    List<PageCard> pages = library.pages().all(book);
    long failed = pages.stream().filter(p -> p.state() == PageState.FAILED).count();
    String all = pages.size() == 1 ? "Read 1 page" : "Read " + pages.size() + " pages";
    return failed == 0 ? all : all + ", " + failed + " can't be read";
  }

  private void tell(Job job) {
    events.tell(job.book(), "job", JobView.of(job));
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
