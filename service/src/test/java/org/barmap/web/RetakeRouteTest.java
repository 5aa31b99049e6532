package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.stream.Stream;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A page photographed again keeps its corrections, and can be had back. */
class RetakeRouteTest extends RunningServer {

  private JsonNode page(String book, int index) throws Exception {
    return json(get("/api/books/" + book)).path("pages").path(index - 1);
  }

  private long revision(String book) throws Exception {
    String etag = get("/api/books/" + book).headers().firstValue("ETag").orElseThrow();
    return Long.parseLong(etag.replace("\"", ""));
  }

  private JsonNode map(String book) throws Exception {
    return json(get("/api/books/" + book + "/map"));
  }

  private static JsonNode bar(JsonNode map, int at) {
    return map.path("bars").path(at);
  }

  private long pictures(String book) throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve("books").resolve(book))) {
      return files.count();
    }
  }

  /** Uploads another picture and waits until it is read; returns the id of its page. */
  private String taken(String book, String name) throws Exception {
    assertThat(upload(book, name, png()).statusCode()).isEqualTo(202);
    await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () -> {
              JsonNode now = json(get("/api/books/" + book));
              return now.path("pages").size() == 3 && now.path("job").isMissingNode();
            });
    return page(book, 3).path("id").asString();
  }

  private HttpResponse<String> retake(String book, String old, String made) throws Exception {
    String path = "/api/books/" + book + "/pages/" + old + "/retake";
    return post(path, "{\"with\":\"" + made + "\"}", revision(book));
  }

  private void countOfTheSecondBar(String book, int count) throws Exception {
    String id = bar(map(book), 1).path("id").asString();
    String body = "{\"kind\":\"set-count\",\"bar\":\"" + id + "\",\"count\":" + count + "}";
    assertThat(post("/api/books/" + book + "/corrections", body, revision(book)).statusCode())
        .isEqualTo(200);
  }

  @Test
  void theNewPictureTakesThePlaceWithTheCorrections() throws Exception {
    String book = readBook();
    countOfTheSecondBar(book, 5);
    String old = page(book, 1).path("id").asString();
    String made = taken(book, "large.png");
    HttpResponse<String> answer = retake(book, old, made);
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(json(answer).path("entry").path("text").asString())
        .isEqualTo("New picture of page 1; its corrections were carried over");
    assertThat(json(get("/api/books/" + book)).path("pages")).hasSize(2);
    assertThat(page(book, 1).path("id").asString()).isEqualTo(made);
    assertThat(page(book, 2).path("source").asString()).isEqualTo("two.png");
    JsonNode map = map(book);
    assertThat(map.path("bars")).hasSize(12);
    assertThat(bar(map, 1).path("count").asInt()).isEqualTo(5);
    assertThat(map.path("pages").path(0).path("width").asInt()).isEqualTo(2000);
    assertThat(get("/api/books/" + book + "/pages/" + old + "/image").statusCode()).isEqualTo(404);
  }

  @Test
  void undoPutsTheOldPageBackAndRedoTheNewOne() throws Exception {
    String book = readBook();
    countOfTheSecondBar(book, 5);
    JsonNode before = map(book);
    String old = page(book, 1).path("id").asString();
    String made = taken(book, "large.png");
    assertThat(retake(book, old, made).statusCode()).isEqualTo(200);
    JsonNode after = map(book);
    assertThat(pictures(book)).as("both pictures are kept").isEqualTo(3);
    assertThat(post("/api/books/" + book + "/undo", "", revision(book)).statusCode())
        .isEqualTo(200);
    assertThat(page(book, 1).path("id").asString()).isEqualTo(old);
    assertThat(json(get("/api/books/" + book)).path("pages")).hasSize(2);
    assertThat(map(book)).isEqualTo(before);
    assertThat(get("/api/books/" + book + "/pages/" + old + "/image").statusCode()).isEqualTo(200);
    assertThat(post("/api/books/" + book + "/redo", "", revision(book)).statusCode())
        .isEqualTo(200);
    assertThat(page(book, 1).path("id").asString()).isEqualTo(made);
    assertThat(map(book)).isEqualTo(after);
    post("/api/books/" + book + "/undo", "", revision(book));
    assertThat(post("/api/books/" + book + "/undo", "", revision(book)).statusCode())
        .as("corrections from before it can be taken back too")
        .isEqualTo(200);
    assertThat(bar(map(book), 1).path("count").asInt()).isEqualTo(1);
  }

  @Test
  void thePictureAsideGoesWhenItCannotComeBack() throws Exception {
    String book = readBook();
    String old = page(book, 1).path("id").asString();
    HttpResponse<String> answer = retake(book, old, taken(book, "large.png"));
    assertThat(json(answer).path("entry").path("text").asString())
        .as("nothing was corrected")
        .isEqualTo("New picture of page 1");
    String order =
        "{\"order\":[\""
            + page(book, 2).path("id").asString()
            + "\",\""
            + page(book, 1).path("id").asString()
            + "\"]}";
    assertThat(post("/api/books/" + book + "/pages/order", order, revision(book)).statusCode())
        .isEqualTo(204);
    assertThat(pictures(book)).isEqualTo(2);
    assertThat(library.pages().reading(old)).isEmpty();
  }

  @Test
  void aNewPictureThatWasTakenBackGoesWithTheNextCorrection() throws Exception {
    String book = readBook();
    String old = page(book, 1).path("id").asString();
    String made = taken(book, "large.png");
    retake(book, old, made);
    post("/api/books/" + book + "/undo", "", revision(book));
    assertThat(pictures(book)).isEqualTo(3);
    countOfTheSecondBar(book, 2);
    assertThat(pictures(book)).isEqualTo(2);
    assertThat(library.pages().reading(made)).isEmpty();
    assertThat(page(book, 1).path("id").asString()).isEqualTo(old);
  }

  @Test
  void aPictureWithoutMusicLeavesTheOldPage() throws Exception {
    String book = readBook();
    String old = page(book, 1).path("id").asString();
    String broken = taken(book, "broken.png");
    HttpResponse<String> answer = retake(book, old, broken);
    assertProblem(answer, ApiError.REFUSED);
    assertThat(answer.body()).contains("The new picture shows no music; the old page stays");
    assertProblem(retake(book, old, "nobody"), ApiError.NO_PAGE);
    assertThat(page(book, 1).path("id").asString()).isEqualTo(old);
    assertThat(pictures(book)).isEqualTo(3);
  }

  @Test
  void aBlankPictureLeavesTheOldPage() throws Exception {
    String book = readBook();
    String old = page(book, 1).path("id").asString();
    assertProblem(retake(book, old, taken(book, "blank.png")), ApiError.REFUSED);
    assertThat(page(book, 1).path("id").asString()).isEqualTo(old);
  }

  @Test
  void itIsForWhoSawIt() throws Exception {
    String book = readBook();
    String old = page(book, 1).path("id").asString();
    String body = "{\"with\":\"" + taken(book, "large.png") + "\"}";
    String path = "/api/books/" + book + "/pages/" + old + "/retake";
    assertProblem(post(path, body), ApiError.NEEDS_REVISION);
    HttpRequest.Builder old0 =
        to(path).header("If-Match", "\"0\"").POST(HttpRequest.BodyPublishers.ofString(body));
    assertProblem(send(old0), ApiError.STALE);
  }
}
