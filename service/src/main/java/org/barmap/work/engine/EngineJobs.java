package org.barmap.work.engine;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.barmap.edit.draft.Draft;
import org.barmap.library.BookCard;
import org.barmap.library.Library;
import org.barmap.library.Saved;
import org.barmap.library.SecondCard;
import org.barmap.library.Versioned;
import org.barmap.library.keep.Newest;
import org.barmap.map.SecondReading;
import org.barmap.work.Events;
import org.barmap.work.SecondFile;
import org.barmap.work.Worker;

/**
 * Engines that were named when the service was started, asked about one book at a time. What one
 * reads becomes the book's second reading, as if a person had attached it.
 */
public final class EngineJobs implements AutoCloseable {

  private static final System.Logger LOG = System.getLogger(EngineJobs.class.getName());

  /** So often it is laid under a book that people change meanwhile. */
  private static final int TRIES = 20;

  /** Of so many books it is told what became of the last one asked. */
  private static final int MOST_KEPT = 1_000;

  private static final int ENDING_SECONDS = 10;

  private final Library library;
  private final Worker worker;
  private final Events events;
  private final List<EngineCommand> engines;
  private final EngineLimits limits;
  private final Newest<Asked> asked = new Newest<>(MOST_KEPT);
  private final ExecutorService one =
      Executors.newSingleThreadExecutor(
          task -> {
            Thread thread = new Thread(task, "barmap-engines");
            thread.setDaemon(true);
            return thread;
          });

  /**
   * What became of asking about a book, last.
   *
   * @param engine its name
   * @param running it waits for its turn, or reads
   * @param why it failed
   */
  public record Asked(String engine, boolean running, Optional<String> why) {}

  /** Returns those of a service without other readers of music. */
  public static EngineJobs none(Library library, Worker worker, Events events) {
    return new EngineJobs(library, worker, events, List.of(), EngineLimits.STANDARD);
  }

  /** Prepares; nothing is asked yet. */
  public EngineJobs(
      Library library,
      Worker worker,
      Events events,
      List<EngineCommand> engines,
      EngineLimits limits) {
    this.library = library;
    this.worker = worker;
    this.events = events;
    this.engines = List.copyOf(engines);
    this.limits = limits;
  }

  /** Returns what the engines are called, in the order they were named. */
  public List<String> names() {
    return engines.stream().map(EngineCommand::name).toList();
  }

  /** Returns what became of the last one asked about a book since the service was started. */
  public Optional<Asked> of(String book) {
    return asked.find(book);
  }

  /**
   * Asks one about a book.
   *
   * @return false when one is asked about it already
   */
  public boolean ask(BookCard book, String name) {
    EngineCommand engine =
        engines.stream().filter(e -> e.name().equals(name)).findFirst().orElseThrow();
    boolean[] mine = {false};
    asked.change(
        book.id(),
        now -> {
          mine[0] = now.filter(Asked::running).isEmpty();
          return mine[0] ? Optional.of(new Asked(name, true, Optional.empty())) : now;
        });
    if (mine[0]) {
      one.execute(() -> read(book, engine));
    }
    return mine[0];
  }

  private void read(BookCard book, EngineCommand engine) {
    Optional<String> why = Optional.of(engine.name() + " was broken off");
    try {
      why = outcome(book, engine);
    } catch (InterruptedException e) {
      // the service ends
      Thread.currentThread().interrupt();
    } catch (IOException | RuntimeException | StackOverflowError | OutOfMemoryError e) {
      LOG.log(System.Logger.Level.WARNING, "what an engine read can't be used", e);
      why = Optional.of("What " + engine.name() + " read can't be used");
    } finally {
      asked.note(book.id(), new Asked(engine.name(), false, why));
      events.tell(book.id(), "second", Map.of());
    }
  }

  private Optional<String> outcome(BookCard book, EngineCommand engine)
      throws IOException, InterruptedException {
    List<Path> pictures =
        library.pages().all(book.id()).stream()
            .filter(p -> !p.picture().isEmpty())
            .map(p -> library.pages().picture(book.id(), p))
            .distinct()
            .filter(Files::exists)
            .toList();
    try (EngineRun run = EngineRun.of(pictures, limits)) {
      EngineOutcome outcome = run.ask(engine, book.part());
      if (outcome instanceof EngineOutcome.Done done) {
        return lay(book.id(), engine.name(), done.part());
      }
      return outcome instanceof EngineOutcome.Failed failed
          ? Optional.of(failed.why())
          : Optional.empty();
    }
  }

  private Optional<String> lay(String book, String engine, SecondReading.Part part)
      throws IOException {
    Path folder = library.pages().folder(book);
    String kept = SecondFile.write(new SecondReading(engine, List.of(part)), folder);
    boolean laid = false;
    try {
      library.pages().keep(book, folder.resolve(kept));
      laid = lay(book, card(engine, kept, part));
    } finally {
      if (!laid) {
        library.pages().drop(book, kept);
      }
    }
    return laid
        ? Optional.empty()
        : Optional.of("What " + engine + " read could not be laid under the book; try again");
  }

  private static SecondCard card(String engine, String kept, SecondReading.Part part) {
    return new SecondCard(
        engine,
        kept,
        part.id(),
        List.of(new SecondCard.PartCard(part.id(), part.name(), part.measures().size())));
  }

  /** Lays it under the book in place of the one before; false when that can't be done. */
  private boolean lay(String book, SecondCard card) {
    for (int left = TRIES; left > 0; left--) {
      Optional<SecondCard> before = library.seconds().find(book);
      Optional<Versioned<Draft>> now = library.drafts().find(book);
      if (now.isEmpty()) {
        return false;
      }
      Saved<Draft> saved = worker.settling().second(book, now.get().revision(), Optional.of(card));
      if (saved instanceof Saved.Done) {
        before.ifPresent(b -> library.pages().drop(book, b.file()));
        return true;
      }
      if (saved instanceof Saved.Refused) {
        return false;
      }
    }
    return false;
  }

  /** Ends the one that reads, and waits a little until the copies of pages it had are deleted. */
  @Override
  public void close() {
    one.shutdownNow();
    try {
      if (!one.awaitTermination(ENDING_SECONDS, TimeUnit.SECONDS)) {
        LOG.log(System.Logger.Level.WARNING, "an engine does not end");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
