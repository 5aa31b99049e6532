package org.barmap.work.child;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import org.barmap.library.PageCard;
import org.barmap.library.Pages;
import org.barmap.map.BarMap;
import org.barmap.map.Book;
import org.barmap.map.Outline;
import org.barmap.reckon.Reckoner;
import org.barmap.sign.ReadPage;
import org.barmap.work.PageLostException;
import org.barmap.work.PageReader;
import org.barmap.work.ReadingStoppedException;
import org.barmap.work.child.LostException.Why;

/**
 * Reads in one child process that is started when it is needed and stays. When it crashes, or a
 * page takes too long, it is ended, the page is given up, and the next one gets a new child.
 */
public final class ChildReader implements PageReader {

  private static final System.Logger LOG = System.getLogger(ChildReader.class.getName());

  private final Class<?> main;
  private final ChildLimits limits;
  private final AtomicLong ids = new AtomicLong();
  private Optional<ChildProcess> child = Optional.empty();
  private boolean closed;

  /**
   * Makes a reader that has started nothing yet.
   *
   * @param main what the child runs: {@link ReadingChild}, or what ends by running it
   */
  public ChildReader(Class<?> main) {
    this(main, ChildLimits.STANDARD);
  }

  ChildReader(Class<?> main, ChildLimits limits) {
    this.main = main;
    this.limits = limits;
  }

  private synchronized ChildProcess child() throws IOException {
    if (closed) {
      throw new ReadingStoppedException();
    }
    if (child.isEmpty() || child.get().isOver()) {
      child = Optional.of(ChildProcess.start(main, limits.heap()));
    }
    return child.get();
  }

  /** Forgets a child that was lost, so that the next question starts a new one. */
  private synchronized void forget(ChildProcess lost) {
    child = child.filter(c -> c != lost);
  }

  /** Returns the process that reads, for tests that end it. */
  synchronized Optional<ProcessHandle> process() {
    return child.flatMap(c -> ProcessHandle.of(c.pid()));
  }

  /** Returns the temporary folder of the process that reads, for tests that end it. */
  synchronized Optional<Path> temporary() {
    return child.map(ChildProcess::temporary);
  }

  @Override
  public int count(Path file) {
    int[] pages = {1};
    try {
      beside(
          () ->
              ask(
                  Ask.Kind.COUNT,
                  limits.count(),
                  file,
                  "",
                  0,
                  a -> pages[0] = Math.max(1, a.number())));
    } catch (LostException | IOException | IllegalStateException e) {
      // the file takes one place, where it says what is wrong with it when it is opened
      LOG.log(System.Logger.Level.WARNING, "the pages of a file can't be counted", e);
    }
    return pages[0];
  }

  /** A question to the child. */
  private interface Question {
    void ask() throws IOException;
  }

  /** Asks for what a person waits for beside the pages that are read, until it is answered. */
  private void beside(Question question) throws IOException {
    Tries tries = new Tries(limits);
    while (true) {
      try {
        question.ask();
        return;
      } catch (LostException e) {
        if (!tries.againBeside(e.why())) {
          throw e;
        }
      }
    }
  }

  @Override
  public List<Pages.NewPage> open(Path file, String name) throws IOException {
    List<Pages.NewPage> pages = new ArrayList<>();
    int[] inFile = {1};
    int lost = 0;
    Tries tries = new Tries(limits);
    do {
      int before = pages.size();
      try {
        ask(
            Ask.Kind.OPEN,
            limits.page(),
            file,
            name,
            before,
            a -> {
              a.picture().ifPresent(pages::add);
              inFile[0] = a.kind() == Answer.Kind.COUNT ? a.number() : inFile[0];
            });
        return pages;
      } catch (LostException e) {
        tries = pages.size() > before ? new Tries(limits) : tries;
        if (pages.size() >= inFile[0] || tries.again(e.why())) {
          continue;
        }
        tries = new Tries(limits);
        String what = "page " + (pages.size() + 1) + " of " + name;
        String rest = ++lost == limits.lostOfFile() ? "; the rest of the file is left out" : "";
        String why = sentence(e.why(), "Opening " + what, "add it again to try once more") + rest;
        pages.add(new Pages.NewPage(name, "", 1, 1, Optional.of(why)));
      }
    } while (pages.size() < inFile[0] && lost < limits.lostOfFile());
    return pages;
  }

  @Override
  public List<Result> read(Path picture, String source, int index) {
    List<Result> results = new ArrayList<>();
    Tries tries = new Tries(limits);
    while (true) {
      results.clear();
      try {
        ask(Ask.Kind.READ, limits.page(), picture, source, index, a -> results.add(a.result()));
        return results;
      } catch (LostException e) {
        if (!tries.again(e.why())) {
          throw new PageLostException(
              sentence(e.why(), "Reading this page", "it can be read again"));
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  @Override
  public Optional<ReadPage> read(Path picture, PageCard page, Outline frame) {
    List<Result> results = new ArrayList<>();
    try {
      Ask ask =
          new Ask(
              ids.incrementAndGet(),
              Ask.Kind.LINE,
              picture.toString(),
              page.source(),
              page.index(),
              Optional.of(page),
              Optional.of(frame));
      beside(
          () -> {
            results.clear();
            ask(ask, limits.page(), a -> results.add(a.result()));
          });
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return results.stream().findFirst().flatMap(Result::page);
  }

  @Override
  public void scale(Path picture, int width, Path to) throws IOException {
    String target = to.toAbsolutePath().toString();
    try {
      beside(() -> ask(Ask.Kind.SCALE, limits.page(), picture, target, width, a -> {}));
    } catch (LostException e) {
      throw new PageLostException(sentence(e.why(), "Showing this page", "ask for it again"));
    }
  }

  private void ask(
      Ask.Kind kind, Duration most, Path file, String name, int from, Consumer<Answer> taker)
      throws IOException {
    Ask ask =
        new Ask(
            ids.incrementAndGet(),
            kind,
            file.toAbsolutePath().toString(),
            name,
            from,
            Optional.empty(),
            Optional.empty());
    ask(ask, most, taker);
  }

  private void ask(Ask ask, Duration most, Consumer<Answer> taker) throws IOException {
    ChildProcess asked = child();
    try {
      asked.ask(ask, most, taker);
    } catch (LostException e) {
      forget(asked);
      if (e.why() == Why.STOPPED) {
        throw new ReadingStoppedException();
      }
      LOG.log(
          System.Logger.Level.WARNING, "lost: {0} of {1}, {2}", ask.kind(), ask.name(), e.why());
      throw e;
    }
  }

  private String sentence(Why why, String what, String again) {
    return switch (why) {
      case TIME ->
          what
              + " took longer than "
              + Math.max(1, limits.page().toMinutes())
              + " min and was broken off; photograph or scan it again";
      case SKIPPED -> what + " was broken off, as you asked; " + again;
      default ->
          what + " broke off, it may need more memory than there is; photograph or scan it again";
    };
  }

  @Override
  public BarMap settle(Book book, List<ReadPage> pages) {
    return new Reckoner().reckon(book, pages);
  }

  @Override
  public synchronized void skip() {
    child.ifPresent(c -> c.kill(Why.SKIPPED));
  }

  @Override
  public synchronized void stop() {
    closed = true;
    child.ifPresent(c -> c.kill(Why.STOPPED));
  }

  @Override
  public void close() {
    stop();
  }
}
