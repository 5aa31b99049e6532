package org.barmap.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;
import org.barmap.web.WebServer;
import org.barmap.work.Events;
import org.barmap.work.ExtractorReader;
import org.barmap.work.Worker;

/**
 * Measures a running service whose checked book of 120 pages is followed: an edition made and
 * fetched, what changed since another one, and the desk alone and beside a thousand programs that
 * ask again and again; these run on the same machine.
 */
final class FeedBench implements AutoCloseable {

  private static final int PAGES = 120;
  private static final int CONSUMERS = 1000;
  private static final int WARM_UP = 40;
  private static final int CORRECTIONS = 300;
  private static final long LISTENED_NANOS = 5_000_000_000L;

  private final Path folder = Files.createTempDirectory("barmap-bench");
  private final SqliteLibrary library = SqliteLibrary.open(folder, Clock.systemUTC());
  private final Worker worker;
  private final WebServer server;
  private final HttpClient http = HttpClient.newHttpClient();
  private final BarMap map = MadeReadings.settled(PAGES);
  private final String book;
  private final Rounds rounds;
  private long revision;
  private int edition = 1;
  private int corrected;

  private FeedBench(Rounds rounds) throws IOException {
    this.rounds = rounds;
    Events events = new Events();
    book = library.books().add("Made", "Bass").id();
    List<Pages.NewPage> pages =
        map.pages().stream()
            .map(p -> new Pages.NewPage(p.source(), "", p.width(), p.height(), Optional.empty()))
            .toList();
    library.pages().add(book, pages, Optional.empty());
    library.readings().lay(book, library.readings().material(book), map);
    worker = new Worker(library, new ExtractorReader(), events);
    server = WebServer.start(library, worker, events, folder, 0);
    for (int page = 1; page <= PAGES; page++) {
      long now = library.drafts().find(book).orElseThrow().revision();
      library.drafts().correct(book, now, "", new PageCorrection.VerifyPage(page, true));
    }
    revision = library.drafts().find(book).orElseThrow().revision();
  }

  static void measure(Map<String, Object> figures, Rounds rounds) throws IOException {
    try (FeedBench at = new FeedBench(rounds)) {
      figures.put("feedPages", PAGES);
      figures.put("feedBytes", at.library.feed().editions().latest(at.book).orElseThrow().bytes());
      figures.put("feedPackedBytes", at.fetched("gzip"));
      figures.put("feedMadeMillis", at.median(round -> at.made()));
      figures.put("feedFetchedMillis", at.median(round -> at.fetched("gzip")));
      figures.put("feedFetchedPlainMillis", at.median(round -> at.fetched("identity")));
      figures.put("feedChangesMillis", at.median(round -> at.changes()));
      at.followed(figures);
    }
  }

  private double median(Step step) throws IOException {
    return rounds.medianMillis(
        new Click() {
          @Override
          public void once(int round) throws IOException {
            step.take(round);
          }

          @Override
          public void close() {
            // the service serves the next kind of click
          }
        },
        WARM_UP);
  }

  /** One step of some kind. */
  private interface Step {
    void take(int round) throws IOException;
  }

  /** Corrects the book and makes an edition of it. */
  private void made() throws IOException {
    correct();
    send(to("/editions").header("If-Match", "\"" + revision + "\"").POST(empty()));
    edition++;
  }

  private static HttpRequest.BodyPublisher empty() {
    return HttpRequest.BodyPublishers.noBody();
  }

  private int fetched(String coding) throws IOException {
    return send(to("/editions/" + edition).header("Accept-Encoding", coding).GET());
  }

  /** What one correction in a new edition changed; the new edition is part of the figure. */
  private void changes() throws IOException {
    made();
    send(to("/editions/" + edition + "/changes").GET());
  }

  /** Gives a rest another count than it has; the next one each time. */
  private void correct() throws IOException {
    List<Bar> rests = map.bars().stream().filter(b -> b.content() == Content.MULTI_REST).toList();
    Bar rest = rests.get(corrected % rests.size());
    String body =
        "{\"kind\":\"set-count\",\"bar\":\"%s\",\"count\":%d}"
            .formatted(rest.id(), rest.count() + 1 + corrected / rests.size() % 5);
    send(
        to("/corrections?pages=changed")
            .header("If-Match", "\"" + revision + "\"")
            .POST(HttpRequest.BodyPublishers.ofString(body)));
    corrected++;
    revision++;
  }

  /** The desk alone, beside those who ask, and how often they can be answered. */
  private void followed(Map<String, Object> figures) throws IOException {
    String head =
        "GET /api/books/%s/editions/latest HTTP/1.1\r\nHost: 127.0.0.1\r\nAuthorization: Bearer %s\r\nAccept-Encoding: gzip\r\n"
            .formatted(book, server.key());
    desk(figures, "feedDeskAlone");
    try (FeedConsumers consumers = new FeedConsumers(CONSUMERS, server.port())) {
      figures.put("feedConsumers", CONSUMERS);
      beside(figures, consumers, head, 10);
      beside(figures, consumers, head, 1);
      consumers.begin(head, 0);
      long before = consumers.asked();
      long start = System.nanoTime();
      while (System.nanoTime() - start < LISTENED_NANOS) {
        LockSupport.parkNanos(LISTENED_NANOS / 100);
      }
      double seconds = (System.nanoTime() - start) / 1e9;
      figures.put(
          "feedNotModifiedPerSecond", Rounds.rounded((consumers.asked() - before) / seconds));
      consumers.end();
    }
    desk(figures, "feedDeskAloneAgain");
  }

  private void beside(
      Map<String, Object> figures, FeedConsumers consumers, String head, int everySeconds)
      throws IOException {
    consumers.begin(head, everySeconds);
    long before = consumers.asked();
    long start = System.nanoTime();
    desk(figures, "feedDeskAskedEvery" + everySeconds + "s");
    double seconds = (System.nanoTime() - start) / 1e9;
    figures.put(
        "feedAskedPerSecondEvery" + everySeconds + "s",
        Rounds.rounded((consumers.asked() - before) / seconds));
    consumers.end();
  }

  /** Corrections one after the other, with the half and the hundredth that takes longest. */
  private void desk(Map<String, Object> figures, String name) throws IOException {
    int many = Math.max(20, CORRECTIONS * rounds.counted() / Rounds.USUAL);
    long[] nanos = new long[many];
    for (int i = -rounds.warmUp(WARM_UP); i < many; i++) {
      long start = System.nanoTime();
      correct();
      if (i >= 0) {
        nanos[i] = System.nanoTime() - start;
      }
    }
    Arrays.sort(nanos);
    figures.put(name + "P50Millis", Rounds.rounded(nanos[many / 2] / 1e6));
    figures.put(name + "P99Millis", Rounds.rounded(nanos[many - 1 - many / 100] / 1e6));
  }

  private HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create(server.address() + "api/books/" + book + path))
        .header("Authorization", "Bearer " + server.key());
  }

  private int send(HttpRequest.Builder request) throws IOException {
    try {
      HttpResponse<byte[]> answer =
          http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
      if (answer.statusCode() >= 300) {
        throw new IOException(answer.uri().getPath() + " answered " + answer.statusCode());
      }
      return answer.body().length;
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
