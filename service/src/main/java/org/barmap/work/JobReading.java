package org.barmap.work;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.barmap.library.Job;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageCard;
import org.barmap.library.PageState;
import org.barmap.library.live.Away;

/** A job at a worker: its files are opened, its pages read, its book settled. */
final class JobReading {

  private static final System.Logger LOG = System.getLogger(JobReading.class.getName());

  /** The first pages of a job show at once, later ones a few at a time: settling takes the book. */
  private static final int SETTLED_AT_ONCE = 10;

  private static final int SETTLED_EVERY = 6;

  /**
   * What a worker has.
   *
   * @param readOf how many pages of each job were read here
   */
  record Tools(
      Library library,
      PageReader reader,
      Events events,
      PictureReading pictures,
      Settling settling,
      ReadOf readOf) {}

  private final Tools tools;
  private final Job job;
  private final BooleanSupplier ended;

  /** The step at hand, with its page or file, for whoever wants to know what failed. */
  private String doing = "Beginning to read";

  /**
   * Begins one.
   *
   * @param ended whether nothing more is to be begun
   */
  JobReading(Tools tools, Job job, BooleanSupplier ended) {
    this.tools = tools;
    this.job = job;
    this.ended = ended;
  }

  /**
   * Does the next step of it: a file is opened, or a page read; what is left after the last one.
   */
  void step() {
    List<Jobs.Upload> uploads = tools.library.jobs().uploads(job.id());
    if (!uploads.isEmpty()) {
      if (stopped()) {
        return;
      }
      progress("Opening " + uploads.get(0).name());
      open(job.book(), uploads.get(0));
    }
    if (uploads.size() <= 1 && readNext() && !stopped()) {
      finish();
    }
  }

  private void finish() {
    doing = "Putting together what was read";
    if (!tools.settling.settle(job.book())) {
      // before this job ends, so that a kill loses neither
      tools.library.jobs().add(job.book());
    }
    tell(tools.library.jobs().finish(job.id(), Job.State.DONE, summary(job.book())));
  }

  /** A job that fails is put off, so that other books go first, and given up in the end. */
  void failed(Throwable e) {
    if (Away.is(e)) {
      // it is not the job's fault: gone on with when the store answers
      throw new IllegalStateException(doing + " was cut short", e);
    }
    if (isGone()) {
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
      tools.library.jobs().putOff(job.id(), pause.get(), text).ifPresent(this::tell);
    } else {
      String text =
          "Given up: %s failed again and again. Please %s, then add the pages again."
              .formatted(doing, advice);
      tell(tools.library.jobs().finish(job.id(), Job.State.FAILED, text));
    }
  }

  /** Tells whether a job went with its book. */
  boolean isGone() {
    return tools.library.jobs().latest(job.book()).isEmpty();
  }

  /** A book that was put into the bin meanwhile is gone on with when it is brought back. */
  private boolean stopped() {
    return ended.getAsBoolean() || tools.library.books().find(job.book()).isEmpty();
  }

  private void open(String book, Jobs.Upload upload) {
    try {
      new Opening(tools.library, tools.reader, book).open(upload);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Reads the next page that waits; false when more of them wait, or it ends. */
  private boolean readNext() {
    if (stopped()) {
      return false;
    }
    List<PageCard> pages = tools.library.pages().all(job.book());
    Optional<PageCard> next = pages.stream().filter(JobReading::waits).findFirst();
    if (next.isEmpty()) {
      return true;
    }
    int all = pages.size() + tools.library.jobs().waiting(job.book());
    progress("Reading page " + next.get().index() + " of " + all);
    tools.pictures.read(job.book(), next.get());
    int read = tools.readOf.count(job.id());
    if (read <= SETTLED_AT_ONCE || read % SETTLED_EVERY == 0) {
      tools.settling.settle(job.book());
    }
    return tools.library.pages().all(job.book()).stream().noneMatch(JobReading::waits);
  }

  /** One being read is one that was broken off. */
  private static boolean waits(PageCard page) {
    return page.state() == PageState.WAITING || page.state() == PageState.READING;
  }

  private void progress(String text) {
    doing = text;
    List<PageCard> pages = tools.library.pages().all(job.book());
    int waiting = tools.library.jobs().waiting(job.book());
    long done =
        pages.stream()
            .filter(p -> p.state() == PageState.READ || p.state() == PageState.FAILED)
            .count();
    tell(tools.library.jobs().progress(job.id(), (int) done, pages.size() + waiting, text));
  }

  private String summary(String book) {
    List<PageCard> pages = tools.library.pages().all(book);
    long failed = pages.stream().filter(p -> p.state() == PageState.FAILED).count();
    String all = pages.size() == 1 ? "Read 1 page" : "Read " + pages.size() + " pages";
    return failed == 0 ? all : all + ", " + failed + " can't be read";
  }

  private void tell(Job job) {
    tools.events.tell(job.book(), "job", JobView.of(job));
  }
}
