package org.barmap.work.engine;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.extract.UprightPages;
import org.barmap.library.keep.OwnFolder;

/** Asks engines to read a book. The folder they work in is deleted afterwards. */
public final class EngineRun implements AutoCloseable {

  private static final System.Logger LOG = System.getLogger(EngineRun.class.getName());

  /** So much of what an engine printed is told. */
  private static final int TOLD = 200;

  private final OwnFolder work;
  private final Path pages;
  private final int count;
  private final EngineLimits limits;
  private int runs;

  private EngineRun(OwnFolder work, Path pages, int count, EngineLimits limits) {
    this.work = work;
    this.pages = pages;
    this.count = count;
    this.limits = limits;
  }

  /**
   * Makes the pages that all of them are given.
   *
   * @param paths files and folders in the order of the book
   * @throws IOException when they can't be written into the temporary folder
   */
  public static EngineRun of(List<Path> paths, EngineLimits limits) throws IOException {
    Path temporary = Path.of(System.getProperty("java.io.tmpdir", ""));
    OwnFolder work = OwnFolder.make(temporary, "barmap-engine-");
    try {
      Path pages = work.path().resolve("pages");
      int count = UprightPages.write(paths, pages).size();
      return new EngineRun(work, pages, count, limits);
    } catch (IOException | RuntimeException e) {
      work.close();
      throw e;
    }
  }

  /**
   * Asks one.
   *
   * @param part which part is this chair's, should it find several; may be empty
   * @throws InterruptedException when this thread is interrupted; the engine is ended before
   */
  public EngineOutcome ask(EngineCommand engine, String part) throws InterruptedException {
    if (count == 0) {
      return failed(engine, "was not asked: no page can be opened", "");
    }
    Path own = work.path().resolve("run-" + ++runs);
    try {
      Path out = Files.createDirectories(own.resolve("out"));
      Duration time = limits.of(count);
      EngineProcess.Result result = EngineProcess.run(engine.with(pages, out), own, time, limits);
      return switch (result.end()) {
        case TIME ->
            failed(engine, "took longer than " + minutes(time) + " and was ended", result.said());
        case TOO_MUCH ->
            failed(
                engine,
                "wrote more than " + (limits.bytes() >> 20) + " MB and was ended",
                result.said());
        case FAILED -> failed(engine, "ended with exit code " + result.code(), result.said());
        case DONE -> new EngineOutcome.Done(engine.name(), EngineReading.read(out, part, limits));
      };
    } catch (UnreadableMusicXmlException e) {
      return failed(engine, "was not understood: " + e.getMessage(), "");
    } catch (IOException | UncheckedIOException e) {
      return failed(engine, "can't be run: " + e.getMessage(), "");
    } finally {
      delete(own);
    }
  }

  private static String minutes(Duration time) {
    return time.toMinutes() > 0 ? time.toMinutes() + " min" : time.toMillis() / 1000.0 + " s";
  }

  /** What it printed is a stranger's text: one line of it, without what would steer a terminal. */
  private static EngineOutcome failed(EngineCommand engine, String what, String printed) {
    String last =
        printed
            .lines()
            .map(l -> l.codePoints().filter(c -> !Character.isISOControl(c)))
            .map(l -> l.mapToObj(Character::toString).collect(Collectors.joining()).strip())
            .filter(l -> !l.isEmpty() && !l.startsWith("at "))
            .reduce("", (a, b) -> b);
    String told = last.length() > TOLD ? last.substring(0, TOLD) + "…" : last;
    return new EngineOutcome.Failed(
        engine.name(), engine.name() + " " + what + (told.isEmpty() ? "" : ": " + told));
  }

  private static void delete(Path folder) {
    if (!Files.exists(folder)) {
      return;
    }
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException | UncheckedIOException e) {
      LOG.log(System.Logger.Level.WARNING, "what an engine left can't be deleted", e);
    }
  }

  @Override
  public void close() {
    work.close();
  }
}
