package org.barmap.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.web.WebServer;
import org.barmap.work.Events;
import org.barmap.work.ExtractorReader;
import org.barmap.work.Worker;

/**
 * Clicks at a running service of one made book of 144 pages, as the desk makes them: from the
 * request that is sent until its whole answer is there.
 */
final class RouteClicks implements AutoCloseable {

  private static final int PAGES = 144;
  private static final int WARM_UP = 60;

  /** As many lines as a director's list may have. */
  private static final int LINES = 20;

  private final Path folder = Files.createTempDirectory("barmap-bench");
  private final SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC());
  private final Worker worker;
  private final WebServer server;
  private final HttpClient http = HttpClient.newHttpClient();
  private final BarMap map = MadeReadings.settled(PAGES);
  private final String book;
  private final Rounds rounds;
  private long revision;

  private RouteClicks(Rounds rounds) throws IOException {
    this.rounds = rounds;
    Events events = new Events();
    book = library.books().add("Made", "Bass").id();
    library.readings().lay(book, library.readings().material(book), map);
    worker = new Worker(library, new ExtractorReader(), events);
    server = WebServer.start(library, worker, events, folder, 0);
    revision = library.drafts().find(book).orElseThrow().revision();
  }

  static void measure(Map<String, Object> figures, Rounds rounds) throws IOException {
    try (RouteClicks at = new RouteClicks(rounds)) {
      figures.put(
          "routeDoubts", at.library.drafts().find(at.book).orElseThrow().value().open().size());
      figures.put("routeCorrectedMillis", at.median(at::corrected));
      figures.put("routeAnswerBytes", at.corrected(1));
      figures.put("routeCheckedMillis", at.median(at::checked));
      figures.put("routeDeskOpenedMillis", at.median(at::opened));
      String desk = at.server.address() + "desk.html?b=" + at.book;
      DeskClicks.measure(figures, at.cookie(), desk, at.map, rounds.counted());
      figures.put("routePastedLines", LINES);
      figures.put("routePastedMillis", at.median(at::pasted));
    }
  }

  /** One request; how long its answer is. */
  private interface Request {
    int send(int round) throws IOException;
  }

  private double median(Request request) throws IOException {
    return rounds.medianMillis(
        new Click() {
          @Override
          public void once(int round) throws IOException {
            request.send(round);
          }

          @Override
          public void close() {
            // the service serves the next kind of click
          }
        },
        WARM_UP);
  }

  /** Gives a rest a bar more or fewer, and takes the pages that changes. */
  private int corrected(int round) throws IOException {
    String answer =
        post("/corrections?pages=changed", rest(round, 1 + Math.floorMod(round, 2)), revision);
    revision++;
    return answer.length();
  }

  /** Asks what two answers to a doubt would change. */
  private int checked(int round) throws IOException {
    String both = rest(round, 1) + "," + rest(round, 2);
    return post("/corrections/check", "{\"corrections\":[" + both + "]}", -1).length();
  }

  private String rest(int round, int more) {
    List<Bar> rests = map.bars().stream().filter(b -> b.content() == Content.MULTI_REST).toList();
    Bar rest = rests.get(Math.floorMod(37 * round, rests.size()));
    return "{\"kind\":\"set-count\",\"bar\":\"%s\",\"count\":%d}"
        .formatted(rest.id(), rest.count() + more);
  }

  /** What the desk asks for when it opens. */
  private int opened(int round) throws IOException {
    int length = 0;
    for (String path :
        List.of("", "/doubts", "/history", "/map?pages=" + (1 + Math.floorMod(round, PAGES)))) {
      length += send(to(path).GET()).length();
    }
    return length;
  }

  /** Accepts a pasted list, and takes it back. */
  private int pasted(int round) throws IOException {
    String lines =
        IntStream.range(0, LINES)
            .mapToObj(
                i ->
                    "{\"kind\":\"cut\",\"number\":\"%d\",\"first\":\"%d\",\"last\":\"%d\"}"
                        .formatted(i + 1, 5 + i, 8 + i))
            .collect(Collectors.joining(","));
    long now = library.changes().find(book).orElseThrow().revision();
    int length = post("/changes", "{\"changes\":[" + lines + "]}", now).length();
    library.changes().undo(book, now + 1);
    return length;
  }

  /** What a browser that was let in remembers, name and value. */
  private String[] cookie() throws IOException {
    try {
      HttpRequest entry = HttpRequest.newBuilder(URI.create(server.entry())).build();
      return http.send(entry, HttpResponse.BodyHandlers.discarding())
          .headers()
          .firstValue("Set-Cookie")
          .orElseThrow()
          .split("[=;]");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  private HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create(server.address() + "api/books/" + book + path))
        .header("Authorization", "Bearer " + server.key());
  }

  private String post(String path, String body, long match) throws IOException {
    HttpRequest.Builder request = to(path).POST(HttpRequest.BodyPublishers.ofString(body));
    return send(match < 0 ? request : request.header("If-Match", "\"" + match + "\""));
  }

  private String send(HttpRequest.Builder request) throws IOException {
    try {
      HttpResponse<String> answer =
          http.send(request.build(), HttpResponse.BodyHandlers.ofString());
      if (answer.statusCode() >= 300) {
        throw new IOException(answer.body());
      }
      return answer.body();
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
