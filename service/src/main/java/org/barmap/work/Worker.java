package org.barmap.work;

import java.nio.file.Path;
import org.barmap.library.Job;
import org.barmap.library.Library;
import org.barmap.library.live.Signals;
import org.barmap.library.turn.Turn;
import org.barmap.library.turn.Turns;

/**
 * Works through the books that wait to be read, a page of one, then a page of the next.
 *
 * <p>Everything it does can be broken off anywhere: what is finished is in the library, what is not
 * is begun again, however often it was broken off.
 */
public final class Worker implements AutoCloseable {

  /** So often in a row a job may be begun without a page of it being finished. */
  private static final int TRIES = 30;

  private static final String WAKE = "wake";
  private static final String SKIP = "skip";

  private final Library library;
  private final PageReader reader;
  private final Events events;
  private final ReadingCounts counts = new ReadingCounts();
  private final Settling settling;
  private final JobReading.Tools tools;
  private final LineReading lines;
  private final PageCopies copies;
  private final Turns.Place place;
  private volatile boolean closed;
  private volatile boolean begun;

  private volatile String atHand = "";

  /** Makes a worker that does nothing until it is started or cranked by hand. */
  public Worker(Library library, PageReader reader, Events events) {
    this.library = library;
    this.reader = reader;
    this.events = events;
    this.settling = new Settling(library, reader, events);
    this.lines = new LineReading(library, reader, events);
    this.copies = new PageCopies(library, reader);
    PictureReading pictures = new PictureReading(library, reader, copies, events, counts);
    this.tools = new JobReading.Tools(library, reader, events, pictures, settling, new ReadOf());
    this.place = library.turns().join(new Taking());
    library.signals().hear(WAKE, text -> library.turns().wake());
    library.signals().hear(Signals.GAP, text -> library.turns().wake());
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

  /** Returns the smaller pictures of pages; they may be used from any thread. */
  public PageCopies copies() {
    return copies;
  }

  /** Returns what was read so far. */
  public ReadingCounts counts() {
    return counts;
  }

  /** Tells whether it works, or waits for work, in a thread of its own. */
  public boolean isAtWork() {
    // where several processes share a store, one may leave the reading to others
    return !closed && (place.isAtWork() || !begun && library.signals().isShared());
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
    begun = true;
    place.begin();
  }

  /** Says that there may be something to do, here or in another process. */
  public void wake() {
    library.turns().wake();
    library.signals().send(WAKE, "");
  }

  /** Takes the turn of the next book: a step of its job; false when none waits. */
  public boolean runOne() {
    library.sweepDaily();
    return place.one();
  }

  /** Takes turns until no book waits. */
  public void runAll() {
    boolean some;
    do {
      some = runOne();
    } while (some && !closed);
  }

  /** What this worker does with a turn. */
  private final class Taking implements Turns.Taker {

    @Override
    public Turn.End take(Turn turn) {
      if (!closed) {
        library.jobs().next(turn.book()).ifPresent(job -> run(job, turn));
      }
      return closed ? Turn.End.HANDED_BACK : Turn.End.DONE;
    }

    @Override
    public void meanwhile() {
      library.sweepDaily();
    }
  }

  private void run(Job job, Turn turn) {
    if (library.jobs().begin(job.id()) > TRIES) {
      Job end = library.jobs().finish(job.id(), Job.State.FAILED, "Given up after many tries");
      events.tell(end.book(), "job", JobView.of(end));
      return;
    }
    JobReading reading = new JobReading(tools, job, () -> closed || turn.isLost());
    atHand = job.book();
    try {
      reading.step();
    } catch (ReadingStoppedException e) {
      return; // it is gone on with when a program has time for it
    } catch (RuntimeException | StackOverflowError | OutOfMemoryError | LinkageError e) {
      reading.failed(e);
      if (!reading.isGone()) {
        throw new Turn.FailedException(e);
      }
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
    place.stop();
    reader.stop();
  }

  /**
   * Stops and waits until the page at hand is read, however long that takes and whoever interrupts:
   * its models must not be closed under it. What is not read others go on with at once.
   */
  @Override
  public void close() {
    stop();
    place.close();
    library.signals().send(WAKE, "");
  }
}
