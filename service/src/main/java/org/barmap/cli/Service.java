package org.barmap.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.web.WebServer;
import org.barmap.work.Events;
import org.barmap.work.ExtractorReader;
import org.barmap.work.PageReader;
import org.barmap.work.Worker;

/** Library, worker and web server together, opened and closed in the right order. */
final class Service implements AutoCloseable {

  /** The first port tried. */
  static final int FIRST_PORT = 7171;

  private static final int PORTS = 100;

  private final Path data;
  private final Library library;
  private final PageReader reader;
  private final Events events = new Events();
  private final Worker worker;
  private Optional<WebServer> server = Optional.empty();

  private Service(Path data, Library library) {
    this.data = data;
    this.library = library;
    this.reader = new ExtractorReader();
    this.worker = new Worker(library, reader, events);
  }

  /** Opens the library in a folder. */
  static Service open(Path data) {
    try {
      Library library = SqliteLibrary.open(data, Clock.systemUTC());
      Logs.into(data);
      return new Service(data, library);
    } catch (IOException e) {
      throw new CommandException(ExitCode.UNREADABLE, String.valueOf(e.getMessage()));
    }
  }

  Library library() {
    return library;
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
   * @return the address
   */
  String start(Optional<Integer> port) {
    WebServer started = port.map(this::listen).orElseGet(this::listenOnNextFree);
    server = Optional.of(started);
    worker.start();
    return started.address();
  }

  private WebServer listen(int port) {
    try {
      return WebServer.start(library, worker, events, data, port);
    } catch (RuntimeException e) {
      if (WebServer.isPortTaken(e)) {
        throw new CommandException(
            ExitCode.WRONG_USE,
            "port " + port + " is in use; name another one with --port, or none at all");
      }
      throw e;
    }
  }

  private WebServer listenOnNextFree() {
    for (int port = FIRST_PORT; port < FIRST_PORT + PORTS; port++) {
      try {
        return WebServer.start(library, worker, events, data, port);
      } catch (RuntimeException e) {
        if (!WebServer.isPortTaken(e)) {
          throw e;
        }
      }
    }
    throw new CommandException(
        ExitCode.WRONG_USE, "no port from " + FIRST_PORT + " on is free; name one with --port");
  }

  @Override
  public void close() {
    server.ifPresent(WebServer::close);
    worker.close();
    reader.close();
    library.close();
  }
}
