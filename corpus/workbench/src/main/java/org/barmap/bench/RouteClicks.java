package org.barmap.bench;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.barmap.map.Bar;
import org.barmap.map.BarMap;
import org.barmap.map.Content;

/**
 * Clicks at a running service of one made book of 144 pages, as the desk makes them: from the
 * request that is sent until its whole answer is there.
 */
final class RouteClicks implements AutoCloseable {

  private static final int PAGES = 144;
  private static final int WARM_UP = 60;

  /** As many lines as a director's list may have. */
  private static final int LINES = 20;

  private final BarMap map = MadeReadings.settled(PAGES);
  private final BenchService service = new BenchService(map, (library, book) -> {});
  private final Rounds rounds;
  private long revision = service.revision();

  private RouteClicks(Rounds rounds) throws IOException {
    this.rounds = rounds;
  }

  static void measure(Map<String, Object> figures, Rounds rounds) throws IOException {
    try (RouteClicks at = new RouteClicks(rounds)) {
      BenchService service = at.service;
      figures.put(
          "routeDoubts",
          service.library().drafts().find(service.book()).orElseThrow().value().open().size());
      figures.put("routeCorrectedMillis", rounds.medianMillis(at::corrected, WARM_UP));
      figures.put("routeAnswerBytes", at.corrected(1));
      figures.put("routeCheckedMillis", rounds.medianMillis(at::checked, WARM_UP));
      figures.put("routeDeskOpenedMillis", rounds.medianMillis(at::opened, WARM_UP));
      String desk = service.server().address() + "desk.html?b=" + service.book();
      DeskClicks.measure(figures, service.cookie(), desk, at.map, rounds.counted());
      String road = at.service.server().address() + "road.html?b=" + at.service.book();
      figures.put("routePastedLines", LINES);
      RoadClicks.measure(figures, at.service.cookie(), road, LINES, rounds.counted());
      figures.put("routePastedMillis", rounds.medianMillis(at::pasted, WARM_UP));
    }
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
      length += send(service.to(path).GET()).length();
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
    long now = service.library().changes().find(service.book()).orElseThrow().revision();
    int length = post("/changes", "{\"changes\":[" + lines + "]}", now).length();
    service.library().changes().undo(service.book(), now + 1);
    return length;
  }

  private String post(String path, String body, long match) throws IOException {
    HttpRequest.Builder request = service.to(path).POST(HttpRequest.BodyPublishers.ofString(body));
    return send(match < 0 ? request : request.header("If-Match", "\"" + match + "\""));
  }

  private String send(HttpRequest.Builder request) throws IOException {
    return new String(service.send(request), StandardCharsets.UTF_8);
  }

  @Override
  public void close() throws IOException {
    service.close();
  }
}
