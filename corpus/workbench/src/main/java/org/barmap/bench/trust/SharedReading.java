package org.barmap.bench.trust;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import org.barmap.cli.Main;
import org.barmap.cli.run.Home;
import org.barmap.library.Jobs;
import org.barmap.library.Library;
import org.barmap.library.PageState;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.page.file.PageFiles;
import org.barmap.work.Events;
import org.barmap.work.ExtractorReader;
import org.barmap.work.JobView;
import org.barmap.work.PageReader;
import org.barmap.work.Worker;

/**
 * Processes that only read, at one PostgreSQL database: how many pages a second they read together,
 * and how long it takes until another one goes on with the book of one that was killed. Beside
 * that, how long a page waits on SQLite.
 */
public final class SharedReading {

  private static final int LOOK_MILLIS = 5;
  private static final int SHORT_ROUNDS = 15;
  private static final int KILLS = 4;
  private static final int PAGES = 9;

  /** How many read together; fewer where a processor would have to do for two of them. */
  private static final List<Integer> NUMBERS =
      IntStream.of(1, 2, 4, 8)
          .filter(n -> n <= Math.max(4, Runtime.getRuntime().availableProcessors()))
          .boxed()
          .toList();

  /** It is not at its end when another process has started. */
  private static final int LONG = 90;

  private static final double MILLION = 1e6;

  private final String database;
  private final Path folder;
  private final Library library;
  private final Events events;
  private final List<Process> processes = new ArrayList<>();

  private SharedReading(String database, Path folder) throws IOException {
    this.database = database;
    this.folder = folder;
    library =
        PostgresLibrary.open(
            DatabaseAddress.of(
                database, Optional.ofNullable(System.getenv("BARMAP_DATABASE_PASSWORD"))),
            folder,
            Clock.systemUTC());
    events = new Events(library.signals());
  }

  /**
   * Runs it; the database should be an empty one.
   *
   * @param books so many of the demo book are read by each number of processes
   */
  public static Map<String, Object> run(String database, int books) throws IOException {
    Map<String, Object> figures = new LinkedHashMap<>();
    figures.put("sqliteMillisToFirstPage", firstPage());
    SharedReading reading = new SharedReading(database, Files.createTempDirectory("barmap-bench"));
    try (Library closed = reading.library) {
      figures.put("millisToTakeOver", reading.takeOvers());
      reading.kill();
      for (int many : NUMBERS) {
        figures.put("pagesPerSecondOf" + many, reading.rate(many, books));
      }
      figures.put("databaseBytes", closed.keeping().kept().database().bytes());
      figures.put("pages", closed.books().all().stream().mapToInt(b -> b.pages()).sum());
    } finally {
      reading.kill();
    }
    return figures;
  }

  /** A book of pages of the demo book, over and over again. */
  private static String book(Library library, int pages) throws IOException {
    String book = library.books().add("Saltmarsh", "Bass").id();
    List<Path> demo = PageFiles.list(List.of(Home.demoBook())).files();
    List<Jobs.Upload> uploads = new ArrayList<>();
    for (int i = 0; i < pages; i++) {
      Path page = demo.get(i % demo.size());
      Path copy = library.pages().folder(book).resolve(i + "-" + page.getFileName());
      Files.copy(page, copy);
      String name = String.valueOf(copy.getFileName());
      uploads.add(new Jobs.Upload(book + "-" + name, name, copy));
    }
    library.jobs().add(book, uploads);
    return book;
  }

  /** From the upload on, at a worker that waits, until a page is begun. */
  private static List<Long> firstPage() throws IOException {
    List<Long> millis = new ArrayList<>();
    try (Library alone =
            SqliteLibrary.open(Files.createTempDirectory("barmap-bench"), Clock.systemUTC());
        PageReader reader = new ExtractorReader()) {
      Events events = new Events();
      try (Worker worker = new Worker(alone, reader, events)) {
        worker.start();
        for (int i = 0; i < SHORT_ROUNDS; i++) {
          AtomicLong begun = new AtomicLong();
          AtomicLong over = new AtomicLong();
          long from = System.nanoTime();
          String book = book(alone, 1);
          Runnable deaf =
              events.listen(
                  book,
                  (name, data) -> {
                    begun.compareAndSet(0, name.equals("page") ? System.nanoTime() : 0);
                    if (data instanceof JobView job && job.state().equals("done")) {
                      over.set(1);
                    }
                  });
          worker.wake();
          while (over.get() == 0) {
            Pause.of(LOOK_MILLIS);
          }
          deaf.run();
          millis.add(Math.round((begun.get() - from) / MILLION));
        }
      }
    }
    return millis;
  }

  private Process begin() throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-Xmx1g", "-Djava.awt.headless=true"));
    command.addAll(List.of("-Dbarmap.home=" + Home.folder(), "-cp"));
    command.addAll(List.of(System.getProperty("java.class.path"), Main.class.getName()));
    command.addAll(List.of("serve", "--data", folder.toString(), "--only-work"));
    command.addAll(List.of("--database", database));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    processes.add(process);
    if (process.inputReader().readLine() == null) {
      throw new IOException("a worker did not start");
    }
    return process;
  }

  private void kill() {
    for (Process process : processes) {
      process.children().forEach(ProcessHandle::destroyForcibly);
      process.destroyForcibly();
      process.onExit().join();
    }
    processes.clear();
  }

  /** From when all read until not all of them have a book any more. */
  private double rate(int many, int books) throws IOException {
    List<String> ids = new ArrayList<>();
    for (int i = 0; i < many; i++) {
      begin();
    }
    // a page for each first: the models are loaded, the compilers warm
    for (int i = 0; i < 2 * many; i++) {
      ids.add(book(library, 2));
    }
    library.signals().send("wake", "");
    long warm = await(ids, ids.size() * 2L);
    ids.clear();
    for (int i = 0; i < books; i++) {
      ids.add(book(library, PAGES));
    }
    long from = System.nanoTime();
    library.signals().send("wake", "");
    long all = (long) books * PAGES;
    long to = await(ids, all - many);
    kill();
    return Math.round((all - many) * 1e11 / Math.max(1, to - Math.max(from, warm))) / 100.0;
  }

  private long await(List<String> books, long pages) throws IOException {
    while (true) {
      long done =
          books.stream()
              .flatMap(b -> library.pages().all(b).stream())
              .filter(p -> p.state() == PageState.READ || p.state() == PageState.FAILED)
              .count();
      if (done >= pages) {
        return System.nanoTime();
      }
      Pause.of(LOOK_MILLIS * 10L);
    }
  }

  /** One reads a book, another one idles; the first is killed. */
  private List<Long> takeOvers() throws IOException {
    List<Long> millis = new ArrayList<>();
    Process first = begin();
    for (int i = 0; i < KILLS; i++) {
      String book = book(library, LONG);
      AtomicLong heard = new AtomicLong();
      Runnable deaf = events.listen(book, (name, data) -> heard.set(System.nanoTime()));
      library.signals().send("wake", "");
      awaitNews(heard, 0);
      Process second = begin();
      long killed = System.nanoTime();
      first.destroyForcibly();
      first.children().forEach(ProcessHandle::destroyForcibly);
      first.onExit().join();
      // what it still said is on its way
      long gone = System.nanoTime();
      awaitNews(heard, gone + (long) (100 * MILLION));
      millis.add(Math.round((heard.get() - killed) / MILLION));
      deaf.run();
      library.books().discard(book);
      first = second;
    }
    return millis;
  }

  private static void awaitNews(AtomicLong heard, long after) throws IOException {
    while (heard.get() <= after) {
      Pause.of(LOOK_MILLIS);
    }
  }
}
