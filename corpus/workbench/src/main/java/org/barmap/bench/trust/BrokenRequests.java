package org.barmap.bench.trust;

import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** Requests to every route that a service describes, with what they say changed by chance. */
final class BrokenRequests {

  /** What does not end, and what takes away the book that is asked about, or those of others. */
  private static final Set<String> SPARED =
      Set.of(
          "get /api/books/{b}/events", "delete /api/books/{b}", "delete /api/bin", "put /api/bin");

  private static final Set<String> WITH_BODY = Set.of("post", "put", "patch");

  private static final List<String> BODIES =
      List.of(
          "{\"kind\":\"set-meter\",\"bar\":\"b1\",\"beats\":5,\"unit\":8}",
          "{\"kind\":\"set-count\",\"bar\":\"b1\",\"count\":31}",
          "{\"corrections\":[{\"kind\":\"set-number\",\"bar\":\"b1\",\"number\":77}]}",
          "{\"kind\":\"vamp\",\"from\":\"9\",\"to\":\"12\"}",
          "{\"text\":\"cut 14 to 19, then twice through C\"}",
          "{\"format\":\"changes/1\",\"changes\":[{\"kind\":\"cut\",\"from\":\"2\",\"to\":\"8\"}]}",
          "{\"title\":\"Tideline\",\"part\":\"Bass\"}",
          "{\"order\":[\"p1\",\"p2\"]}",
          "{\"outline\":[[5,5],[80,5],[80,30],[5,30]]}",
          "{\"desk\":\"desk-two\",\"page\":2,\"bar\":\"b9\"}");

  private static final List<String> WORDS =
      List.of("1", "0", "-7", "9999999999", "map", "run.pdf", "latest", "p1", "null", "A4", "7:34");

  private static final List<String> NAMES =
      List.of("width", "bar", "bars", "pages", "without", "moment", "paper", "number", "since");

  private static final List<String> REVISIONS = List.of("*", "\"\"", "\"-1\"", "W/\"1\"", "x");

  private record Route(String method, String path) {}

  private final List<Route> routes = new ArrayList<>();

  /**
   * Reads which routes there are.
   *
   * @param description of the service, as it sends it
   */
  BrokenRequests(JsonNode description) {
    for (String path : description.path("paths").propertyNames()) {
      for (String method : description.path("paths").path(path).propertyNames()) {
        if (!method.equals("parameters") && !SPARED.contains(method + " " + path)) {
          routes.add(new Route(method, path));
        }
      }
    }
  }

  int routes() {
    return routes.size();
  }

  /** What a request may be about: a book as it is, and a page of it. */
  record About(String book, String page, long revision) {}

  /** Returns one of them. */
  HttpRequest.Builder next(Asked asked, About about, Random random) throws IOException {
    Route route = routes.get(random.nextInt(routes.size()));
    StringBuilder path = new StringBuilder();
    for (String part : route.path().substring(1).split("/")) {
      String said =
          switch (part) {
            case "{b}" -> about.book();
            case "{p}" -> about.page();
            default -> part.replaceAll("\\{\\w+}", any(WORDS, random));
          };
      path.append('/').append(encoded(random.nextInt(30) == 0 ? broken(said, random) : said));
    }
    if (random.nextInt(3) == 0) {
      String value = any(WORDS, random);
      path.append('?').append(any(NAMES, random)).append('=');
      path.append(encoded(random.nextBoolean() ? value : broken(value, random)));
    }
    boolean told = WITH_BODY.contains(route.method());
    byte[] whole = any(BODIES, random).getBytes(StandardCharsets.UTF_8);
    byte[] body = random.nextInt(5) == 0 ? whole : BrokenFiles.broken(whole, random);
    return asked
        .to(path.toString())
        .header("Content-Type", "application/json")
        .header(
            "If-Match",
            random.nextInt(8) == 0 ? any(REVISIONS, random) : "\"" + about.revision() + "\"")
        .method(
            route.method().toUpperCase(Locale.ROOT),
            told ? BodyPublishers.ofByteArray(body) : BodyPublishers.noBody());
  }

  private static <T> T any(List<T> of, Random random) {
    return of.get(random.nextInt(of.size()));
  }

  private static String broken(String text, Random random) {
    byte[] bytes = BrokenFiles.broken(text.getBytes(StandardCharsets.UTF_8), random);
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
