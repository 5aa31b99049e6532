package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CountDownLatch;
import org.barmap.cli.option.EngineOptions;
import org.barmap.cli.out.CommandException;
import org.barmap.cli.out.ExitCode;
import org.barmap.cli.run.Logs;
import org.barmap.cli.run.Stopping;
import org.barmap.library.Library;
import org.barmap.library.keep.OwnFolder;
import org.barmap.library.picture.S3Address;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.pack.PackOpener;
import org.barmap.web.WebServer;
import org.barmap.web.access.Places;
import org.barmap.work.Events;
import org.barmap.work.PageReader;
import org.barmap.work.Worker;
import org.barmap.work.child.ChildReader;
import org.barmap.work.engine.EngineJobs;
import org.barmap.work.hook.HookSender;
import org.barmap.work.hook.NetRules;

/** Library, worker and web server together, opened and closed in the right order. */
final class Service implements AutoCloseable {

  /** The first port tried. */
  static final int FIRST_PORT = 7171;

  private static final int PORTS = 100;

  private final Path data;
  private final Library library;
  private final PageReader reader;
  private final WorkerPool pool;
  private final Events events;
  private final Worker worker;
  private int workers = 1;
  private Optional<WebServer> server = Optional.empty();
  private Optional<HookSender> sender = Optional.empty();
  private Optional<EngineJobs> engines = Optional.empty();

  private Service(Path data, Library library, PageReader reader) {
    this.data = data;
    this.library = library;
    this.reader = reader;
    this.events = new Events(library.signals());
    this.worker = new Worker(library, reader, events);
    this.pool = new WorkerPool(library, events, worker);
    if (library.signals().wasAlone()) {
      new PackOpener(library).removeUnfinished();
    }
  }

  /** Opens the library in a folder. */
  static Service open(Path data) {
    return open(data, Optional.empty(), Optional.empty());
  }

  /** Opens the library in a folder, or in a database with its pictures in the folder. */
  static Service open(Path data, Optional<DatabaseAddress> database, Optional<S3Address> pictures) {
    try {
      Library library = DataCommand.library(data, database, pictures);
      OwnFolder.sweep();
      Service service = new Service(data, library, new ChildReader(ReadingMain.class));
      Logs.into(data);
      return service;
    } catch (IOException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    }
  }

  static Service open(Path data, PageReader reader) throws IOException {
    return new Service(data, SqliteLibrary.open(data, Clock.systemUTC()), reader);
  }

  Library library() {
    return library;
  }

  /** Says how many pages are read at a time from the start on; none for who only listens. */
  void setWorkers(int many) {
    workers = many;
  }

  /** Starts reading only. */
  void work() {
    pool.start(workers);
  }

  Worker worker() {
    return worker;
  }

  Events events() {
    return events;
  }

  /**
   * Starts listening and reading.
   *
   * @param port the port wanted; empty for the next free one
   * @return the server
   */
  WebServer start(Optional<Integer> port) {
    return start(port, Places.sharedAt(List.of()));
  }

  /**
   * Starts listening and reading.
   *
   * @param port the port wanted; empty for the next free one
   * @param places where it is reached besides the loopback address
   * @return the server
   */
  WebServer start(Optional<Integer> port, Places places) {
    return start(port, places, NetRules.INTERNET, new EngineOptions());
  }

  /**
   * Starts listening and reading.
   *
   * @param port the port wanted; empty for the next free one
   * @param places where it is reached besides the loopback address
   * @param hooks where web hooks may lead
   * @param readers other readers of music that its books may be read with
   * @return the server
   */
  WebServer start(Optional<Integer> port, Places places, NetRules hooks, EngineOptions readers) {
    EngineJobs jobs = new EngineJobs(library, worker, events, readers.commands(), readers.limits());
    engines = Optional.of(jobs);
    Start start = p -> WebServer.start(library, worker, events, data, p, places, hooks, jobs);
    WebServer started = port.map(p -> listen(p, start)).orElseGet(() -> listenOnNextFree(start));
    server = Optional.of(started);
    HookSender sending = new HookSender(library.feed(), hooks, Clock.systemUTC());
    sending.start();
    sender = Optional.of(sending);
    pool.start(workers);
    return started;
  }

  /** Starts a server at a port. */
  private interface Start {
    WebServer at(int port);
  }

  private static WebServer listen(int port, Start start) {
    try {
      return start.at(port);
    } catch (RuntimeException e) {
      if (WebServer.isPortTaken(e)) {
        throw new CommandException(
            ExitCode.WRONG_USE,
            "port " + port + " is in use; name another one with --port, or none at all");
      }
      throw e;
    }
  }

  private static WebServer listenOnNextFree(Start start) {
    for (int port = FIRST_PORT; port < FIRST_PORT + PORTS; port++) {
      try {
        return start.at(port);
      } catch (RuntimeException e) {
        if (!WebServer.isPortTaken(e)) {
          throw e;
        }
      }
    }
    throw new CommandException(
        ExitCode.WRONG_USE, "no port from " + FIRST_PORT + " on is free; name one with --port");
  }

  /** From now on a signal ends the reading after the page at hand, and what is returned opens. */
  CountDownLatch stopAtSignal() {
    CountDownLatch stopped = new CountDownLatch(1);
    Stopping.onSignal(
        () -> {
          pool.stop();
          stopped.countDown();
        });
    return stopped;
  }

  /** Ends listening first, then reading, then the models, the store last. */
  @Override
  public void close() {
    server.ifPresent(WebServer::close);
    sender.ifPresent(HookSender::close);
    engines.ifPresent(EngineJobs::close);
    pool.close();
    reader.close();
    library.close();
  }
}
