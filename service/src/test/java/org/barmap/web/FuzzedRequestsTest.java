package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.barmap.exchange.musicxml.MusicXmlReader;
import org.barmap.exchange.musicxml.UnreadableMusicXmlException;
import org.barmap.map.BarMap;
import org.barmap.map.json.BadMapException;
import org.barmap.map.json.BarMapJson;
import org.barmap.plan.PlanSettings;
import org.barmap.plan.Planner;
import org.barmap.plan.change.BadChangesException;
import org.barmap.plan.change.ChangesJson;
import org.barmap.plan.change.ShowChanges;
import org.barmap.plan.words.ChangeWords;
import org.junit.jupiter.api.Test;

/**
 * Requests, documents and words with pieces changed by chance: each is answered, or refused with a
 * plain sentence. More of them: {@code -Dbarmap.fuzz.requests=20000 -Dbarmap.fuzz.seed=7}.
 */
class FuzzedRequestsTest extends RunningServer {

  @Override
  protected boolean isOdd() {
    return true;
  }

  private static final int CASES = Integer.getInteger("barmap.fuzz.requests", 400);
  private static final long SEED = Long.getLong("barmap.fuzz.seed", 1);

  private static final List<String> ODD =
      List.of(
          "null",
          "-1",
          "0",
          "1e309",
          "99999999999999999999",
          "2147483648",
          "\"\"",
          "[]",
          "{}",
          "true",
          "\"\\u0000\"",
          "\"\\uD800\"",
          "\uFEFF",
          "[[[[[[",
          "{\"a\":",
          ",",
          "\\",
          "'",
          "<",
          "&x;",
          "]]>",
          "\u202E",
          "9".repeat(400),
          "x".repeat(2_000),
          "bar",
          "to",
          "1-",
          "b1",
          "..",
          "%00",
          "/");

  private static final List<String> BODIES =
      List.of(
          "{\"kind\":\"set-count\",\"bar\":\"b1\",\"count\":2,\"who\":\"A\"}",
          "{\"kind\":\"set-number\",\"bar\":\"b2\",\"number\":12}",
          "{\"kind\":\"set-meter\",\"bar\":\"b2\",\"beats\":3,\"unit\":4}",
          "{\"corrections\":[{\"kind\":\"delete-bar\",\"bar\":\"b3\"}]}",
          "{\"outline\":[[10,10],[90,10],[90,40],[10,40]]}",
          "{\"title\":\"Ebb\",\"part\":\"Bass\"}",
          "{\"kind\":\"cut\",\"from\":\"3\",\"to\":\"5\"}",
          "{\"kind\":\"vamp\",\"from\":\"2\",\"to\":\"4\",\"note\":\"till cue\"}",
          "{\"text\":\"No. 1: cut 3 to 5, repeat 7 three times\"}",
          "{\"format\":\"changes/1\",\"changes\":[{\"kind\":\"cut\",\"from\":\"3\",\"to\":\"5\"}]}",
          "{\"desk\":\"desk-one\",\"page\":1,\"bar\":\"b1\"}",
          "{\"pages\":[\"p1\",\"p2\"]}",
          "{\"as\":\"desk\"}");

  private static final List<String> SAYINGS =
      List.of(
          "No. 1: cut 3 to 5",
          "vamp bars 7-8 until the door slams",
          "repeat 12 to 16 three times, second time tacet",
          "insert 4 bars after 20",
          "new tempo at 9: quarter = 132",
          "cut from the pickup to B to four after C");

  private static String changed(String text, Random random) {
    int at = random.nextInt(text.length() + 1);
    int end = Math.min(text.length(), at + random.nextInt(12));
    String odd = ODD.get(random.nextInt(ODD.size()));
    return switch (random.nextInt(5)) {
      case 0 -> text.substring(0, at) + odd + text.substring(at);
      case 1 -> text.substring(0, at) + odd + text.substring(end);
      case 2 -> text.substring(0, at) + text.substring(end);
      case 3 -> text.substring(0, end) + text.substring(at);
      default -> text.substring(0, at) + (char) random.nextInt(0x3000) + text.substring(end);
    };
  }

  private static String often(String text, Random random) {
    String out = text;
    for (int n = 1 + random.nextInt(4); n > 0; n--) {
      out = changed(out, random);
    }
    return out;
  }

  private static <T> T any(List<T> of, Random random) {
    return of.get(random.nextInt(of.size()));
  }

  @Test
  void everyRequestIsAnsweredOrRefused() throws Exception {
    String book = readBook();
    String page = library.pages().all(book).get(0).id();
    List<String> routes = new ArrayList<>(server.routes());
    routes.removeIf(r -> r.endsWith("/events") || r.startsWith("DELETE /api/books/{b}"));
    for (int i = 0; i < CASES; i++) {
      long seed = SEED * 1_000_003 + i;
      Random random = new Random(seed);
      String[] route = any(routes, random).split(" ");
      String path = route[1].replace("{b}", book).replace("{p}", page);
      path = path.replaceAll("\\{\\w+}", any(List.of("map", "run.pdf", "c1", "csv"), random));
      if (random.nextInt(6) == 0) {
        path = "/api/" + encoded(changed(path.substring(5), random)).replace("%2F", "/");
      }
      path += random.nextInt(4) == 0 ? "?" + query(random) : "";
      String body =
          random.nextInt(5) == 0 ? any(BODIES, random) : often(any(BODIES, random), random);
      HttpRequest.Builder request =
          to(path)
              .header("If-Match", revision(book, random))
              .header("Content-Type", "application/json")
              .method(route[0], HttpRequest.BodyPublishers.ofString(body));
      HttpResponse<String> answer = send(request);
      String told = "seed " + seed + ": " + route[0] + " " + path + " " + body + " -> ";
      assertThat(answer.statusCode()).as(told + answer.body()).isLessThan(500);
      assertThat(answer.body()).as(told).doesNotContain("Exception:", "\tat ");
    }
    assertThat(get("/api/books/" + book).statusCode()).isEqualTo(200);
  }

  private String revision(String book, Random random) {
    long now = library.drafts().find(book).orElseThrow().revision();
    return random.nextInt(8) == 0
        ? any(List.of("*", "\"\"", "\"-1\"", "\"99999999999999999999\"", "x"), random)
        : "\"" + now + "\"";
  }

  private static String query(Random random) {
    String name =
        any(
            List.of("width", "bar", "bars", "pages", "without", "moment", "paper", "number", "at"),
            random);
    return name + "=" + encoded(any(ODD, random));
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8).replace("+", "%20");
  }

  @Test
  void everyDocumentIsReadOrRefused() throws Exception {
    BarMap map = library.drafts().find(readBook()).orElseThrow().value().map();
    String json = BarMapJson.write(map);
    String score =
        "<?xml version=\"1.0\"?><score-partwise version=\"4.0\"><part-list><score-part id=\"P1\">"
            + "<part-name>Bass</part-name></score-part></part-list><part id=\"P1\">"
            + "<measure number=\"1\"><attributes><divisions>1</divisions><time><beats>4</beats>"
            + "<beat-type>4</beat-type></time></attributes><note><rest/><duration>4</duration></note>"
            + "</measure><measure number=\"2\"><barline location=\"right\"><repeat"
            + " direction=\"backward\"/></barline></measure></part></score-partwise>";
    for (int i = 0; i < CASES; i++) {
      long seed = SEED * 1_000_003 + i;
      Random random = new Random(seed);
      try {
        switch (i % 4) {
          case 0 ->
              Planner.plan(map(often(json, random), map), ShowChanges.none(), PlanSettings.USUAL);
          case 1 -> Planner.plan(map, changes(often(BODIES.get(9), random)), PlanSettings.USUAL);
          case 2 -> ChangeWords.understand(map, often(any(SAYINGS, random), random));
          default -> score(often(score, random));
        }
      } catch (RuntimeException | Error e) {
        throw new AssertionError("seed " + seed, e);
      }
    }
  }

  private static BarMap map(String json, BarMap otherwise) {
    try {
      return BarMapJson.read(json);
    } catch (BadMapException e) {
      assertThat(e.getMessage()).doesNotContain("Exception");
      return otherwise;
    }
  }

  private static ShowChanges changes(String json) {
    try {
      return ChangesJson.read(json);
    } catch (BadChangesException e) {
      assertThat(e.getMessage()).doesNotContain("Exception");
      return ShowChanges.none();
    }
  }

  private static void score(String xml) throws IOException {
    try {
      MusicXmlReader.read("a", new ByteArrayInputStream(xml.getBytes(StandardCharsets.UTF_8)));
    } catch (UnreadableMusicXmlException e) {
      assertThat(e.getMessage()).doesNotContain("Exception");
    }
  }
}
