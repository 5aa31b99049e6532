package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Whoever writes says what they saw; of two who saw the same the second one is told. */
class WritesTest extends RunningServer {

  private HttpResponse<String> write(String method, String path, String body, String match)
      throws Exception {
    HttpRequest.Builder request =
        to(path).method(method, HttpRequest.BodyPublishers.ofString(body));
    return send(match.isEmpty() ? request : request.header("If-Match", match));
  }

  private String etag(String path) throws Exception {
    return get(path).headers().firstValue("ETag").orElseThrow();
  }

  /** Without what was seen, with it, and once more with what is old by then. */
  private void isGuarded(String method, String path, String body, String seenAt, int good)
      throws Exception {
    assertProblem(write(method, path, body, ""), ApiError.NEEDS_REVISION);
    String seen = etag(seenAt);
    assertThat(write(method, path, body, seen).statusCode()).isEqualTo(good);
    assertProblem(write(method, path, body, seen), ApiError.STALE);
  }

  private String page(String book, int index) throws Exception {
    return json(get("/api/books/" + book)).path("pages").path(index - 1).path("id").asString();
  }

  @Test
  void pagesAreOrderedByWhoSawThem() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    String order = "{\"order\":[\"" + page(book, 2) + "\",\"" + page(book, 1) + "\"]}";
    isGuarded("POST", path + "/pages/order", order, path, 204);
    assertThat(json(get(path)).path("pages").path(0).path("source").asString())
        .isEqualTo("two.png");
    assertProblem(
        write("POST", path + "/pages/order", "{\"order\":[]}", etag(path)), ApiError.REFUSED);
  }

  @Test
  void settingsAndTitlesAreSetByWhoSawThem() throws Exception {
    String path = "/api/books/" + newBook();
    isGuarded("PUT", path + "/settings", "{\"memoryBars\":7}", path + "/settings", 200);
    isGuarded("PATCH", path, "{\"title\":\"Ebb\"}", path, 200);
  }

  @Test
  void aPageIsReadAgainForWhoSawIt() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    String again = path + "/pages/" + page(book, 1) + "/again";
    assertProblem(write("POST", again, "", ""), ApiError.NEEDS_REVISION);
    assertProblem(write("POST", again, "", "\"0\""), ApiError.STALE);
    assertThat(write("POST", again, "", etag(path)).statusCode()).isEqualTo(202);
  }

  /** Where nothing can be read in the frame the line starts as one bar; nonsense is refused. */
  @Test
  void aLineIsDrawnByWhoSawThePage() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    String line = path + "/pages/" + page(book, 1) + "/line";
    for (String wrong : List.of("{}", "{\"outline\":null}", FRAME.formatted(5000, 5000))) {
      assertProblem(write("POST", line, wrong, etag(path)), ApiError.REFUSED);
    }
    for (String wrong :
        List.of("[]", "{\"outline\":\"here\"}", "{\"outline\":[[1,2],[\"a\",{}]]}")) {
      assertProblem(write("POST", line, wrong, etag(path)), ApiError.BAD_REQUEST);
    }
    isGuarded("POST", line, FRAME.formatted(1200, 1280), path + "/map", 200);
    assertProblem(
        write("POST", line, FRAME.formatted(1200, 1280), etag(path + "/map")), ApiError.REFUSED);
  }

  private static final String FRAME = "{\"outline\":[[100,%1$d],[900,%1$d],[900,%2$d],[100,%2$d]]}";

  @Test
  void aPageIsTakenOutOnceByWhoSawIt() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    String one = path + "/pages/" + page(book, 1);
    String two = path + "/pages/" + page(book, 2);
    assertProblem(write("DELETE", one, "", ""), ApiError.NEEDS_REVISION);
    String seen = etag(path);
    assertThat(write("DELETE", one, "", seen).statusCode()).isEqualTo(204);
    assertProblem(write("DELETE", two, "", seen), ApiError.STALE);
    assertProblem(write("DELETE", one, "", etag(path)), ApiError.NO_PAGE);
    JsonNode left = json(get(path)).path("pages");
    assertThat(left).hasSize(1);
  }

  /** The IETF's draft of the Idempotency-Key header: same key, same request: made once. */
  @Test
  void anEditSentAgainWithItsKeyIsMadeOnce() throws Exception {
    String path = "/api/books/" + readBook() + "/changes";
    String change = "{\"number\":\"1\",\"kind\":\"remind\",\"first\":\"1\",\"what\":\"watch\"}";
    String seen = etag(path);
    HttpResponse<String> first = keyed(path, change, seen, "0123456789abcdef");
    assertThat(first.statusCode()).as(first.body()).isEqualTo(201);
    HttpResponse<String> again = keyed(path, change, seen, "0123456789abcdef");
    assertThat(again.statusCode()).isEqualTo(200);
    assertThat(json(again).path("repeated").asBoolean()).isTrue();
    assertThat(again.headers().firstValue("ETag")).isEqualTo(first.headers().firstValue("ETag"));
    assertThat(json(get(path)).path("changes")).hasSize(1);
    assertProblem(keyed(path, change + " ", seen, "0123456789abcdef"), ApiError.KEY_USED);
    assertProblem(keyed(path, change, seen, "0123456789abcdeg"), ApiError.STALE);
    assertProblem(keyed(path, change, seen, "short"), ApiError.BAD_REQUEST);
    assertThat(json(get(path)).path("changes")).hasSize(1);
  }

  private HttpResponse<String> keyed(String path, String body, String seen, String key)
      throws Exception {
    return send(
        to(path)
            .header("If-Match", seen)
            .header("Idempotency-Key", key)
            .POST(HttpRequest.BodyPublishers.ofString(body)));
  }
}
