package org.barmap.bench;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import org.barmap.edit.kind.PageCorrection;
import org.barmap.library.Pages;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;

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

  private final BarMap map = MadeReadings.settled(PAGES);
  private final BenchService service = new BenchService(map, this::addPages);
  private final Rounds rounds;
  private long revision;
  private int edition = 1;
  private int corrected;

  private FeedBench(Rounds rounds) throws IOException {
    this.rounds = rounds;
    for (int page = 1; page <= PAGES; page++) {
      service
          .library()
          .drafts()
          .correct(
              service.book(), service.revision(), "", new PageCorrection.VerifyPage(page, true));
    }
    revision = service.revision();
  }

  private void addPages(SqliteLibrary library, String book) throws IOException {
    List<Pages.NewPage> pages =
        map.pages().stream()
            .map(p -> new Pages.NewPage(p.source(), "", p.width(), p.height(), Optional.empty()))
            .toList();
    library.pages().add(book, pages, Optional.empty());
  }

  static void measure(Map<String, Object> figures, Rounds rounds) throws IOException {
    try (FeedBench at = new FeedBench(rounds)) {
      figures.put("feedPages", PAGES);
      figures.put(
          "feedBytes",
          at.service.library().feed().editions().latest(at.service.book()).orElseThrow().bytes());
      figures.put("feedPackedBytes", at.fetched("gzip"));
      figures.put("feedMadeMillis", rounds.medianMillis(round -> at.made(), WARM_UP));
      figures.put("feedFetchedMillis", rounds.medianMillis(round -> at.fetched("gzip"), WARM_UP));
      figures.put(
          "feedFetchedPlainMillis", rounds.medianMillis(round -> at.fetched("identity"), WARM_UP));
      figures.put("feedChangesMillis", rounds.medianMillis(round -> at.changes(), WARM_UP));
      at.followed(figures);
    }
  }

  /** Corrects the book and makes an edition of it. */
  private void made() throws IOException {
    correct();
    send(service.to("/editions").header("If-Match", "\"" + revision + "\"").POST(empty()));
    edition++;
  }

  private static HttpRequest.BodyPublisher empty() {
    return HttpRequest.BodyPublishers.noBody();
  }

  private int fetched(String coding) throws IOException {
    return send(service.to("/editions/" + edition).header("Accept-Encoding", coding).GET());
  }

  /** What one correction in a new edition changed; the new edition is part of the figure. */
  private void changes() throws IOException {
    made();
    send(service.to("/editions/" + edition + "/changes").GET());
  }

  /** Gives a rest another count than it has; the next one each time. */
  private void correct() throws IOException {
    List<Bar> rests = map.bars().stream().filter(b -> b.content() == Content.MULTI_REST).toList();
    Bar rest = rests.get(corrected % rests.size());
    String body =
        "{\"kind\":\"set-count\",\"bar\":\"%s\",\"count\":%d}"
            .formatted(rest.id(), rest.count() + 1 + corrected / rests.size() % 5);
    send(
        service
            .to("/corrections?pages=changed")
            .header("If-Match", "\"" + revision + "\"")
            .POST(HttpRequest.BodyPublishers.ofString(body)));
    corrected++;
    revision++;
  }

  /** The desk alone, beside those who ask, and how often they can be answered. */
  private void followed(Map<String, Object> figures) throws IOException {
    String head =
        "GET /api/books/%s/editions/latest HTTP/1.1\r\nHost: 127.0.0.1\r\nAuthorization: Bearer %s\r\nAccept-Encoding: gzip\r\n"
            .formatted(service.book(), service.server().key());
    desk(figures, "feedDeskAlone");
    try (FeedConsumers consumers = new FeedConsumers(CONSUMERS, service.server().port())) {
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

  private int send(HttpRequest.Builder request) throws IOException {
    return service.send(request).length;
  }

  @Override
  public void close() throws IOException {
    service.close();
  }
}
