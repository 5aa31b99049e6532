package org.barmap.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.stream.Stream;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.BarMap;
import org.barmap.web.WebServer;
import org.barmap.work.Events;
import org.barmap.work.ExtractorReader;
import org.barmap.work.Worker;

/**
 * A running service with one made book, in a folder that goes with it; and its owner's requests.
 */
final class BenchService implements AutoCloseable {

  private final Path folder = Files.createTempDirectory("barmap-bench");
  private final SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC());
  private final HttpClient http = HttpClient.newHttpClient();
  private final Worker worker;
  private final WebServer server;
  private final String book;

  /** Adds the pages of a book before its map is laid. */
  interface Adding {
    void to(SqliteLibrary library, String book) throws IOException;
  }

  BenchService(BarMap map, Adding pages) throws IOException {
    Events events = new Events();
    book = library.books().add("Made", "Bass").id();
    pages.to(library, book);
    library.readings().lay(book, library.readings().material(book), map);
    worker = new Worker(library, new ExtractorReader(), events);
    server = WebServer.start(library, worker, events, folder, 0);
  }

  SqliteLibrary library() {
    return library;
  }

  WebServer server() {
    return server;
  }

  /** Returns the id of the book. */
  String book() {
    return book;
  }

  /** Returns the revision of the book's map. */
  long revision() {
    return library.drafts().find(book).orElseThrow().revision();
  }

  /** A request about the book. */
  HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create(server.address() + "api/books/" + book + path))
        .header("Authorization", "Bearer " + server.key());
  }

  /** Sends it and returns what is answered; anything but success is an error. */
  byte[] send(HttpRequest.Builder request) throws IOException {
    HttpResponse<byte[]> answer = answer(request);
    if (answer.statusCode() >= 300) {
      throw new IOException(
          answer.uri().getPath()
              + " answered "
              + answer.statusCode()
              + ": "
              + new String(answer.body(), StandardCharsets.UTF_8));
    }
    return answer.body();
  }

  /** What a browser that was let in remembers, name and value. */
  String[] cookie() throws IOException {
    return answer(HttpRequest.newBuilder(URI.create(server.entry())))
        .headers()
        .firstValue("Set-Cookie")
        .orElseThrow()
        .split("[=;]");
  }

  private HttpResponse<byte[]> answer(HttpRequest.Builder request) throws IOException {
    try {
      return http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  @Override
  public void close() throws IOException {
    server.close();
    worker.close();
    library.close();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    }
  }
}
