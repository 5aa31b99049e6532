package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Second readings over real HTTP, with a real library. */
class SecondRoutesTest extends RunningServer {

  /** A score whose parts count from a number on; MusicXML 4.0, score-partwise. */
  private static String score(int from, String... names) {
    StringBuilder list = new StringBuilder();
    StringBuilder parts = new StringBuilder();
    for (int p = 1; p <= names.length; p++) {
      list.append(
          "<score-part id=\"P%d\"><part-name>%s</part-name></score-part>"
              .formatted(p, names[p - 1]));
      parts.append("<part id=\"P%d\">".formatted(p));
      for (int i = 0; i < 12; i++) {
        parts.append(
            "<measure number=\"%d\"><note><pitch><step>C</step><octave>3</octave></pitch><duration>4</duration></note></measure>"
                .formatted(from + i));
      }
      parts.append("</part>");
    }
    return "<score-partwise version=\"4.0\"><part-list>"
        + list
        + "</part-list>"
        + parts
        + "</score-partwise>";
  }

  private HttpResponse<String> attach(String book, long revision, String... files)
      throws Exception {
    StringBuilder body = new StringBuilder();
    for (String file : files) {
      body.append(
          "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"../score.musicxml\"\r\n"
              + "Content-Type: application/octet-stream\r\n\r\n"
              + file
              + "\r\n");
    }
    return send(
        to(path(book))
            .header("Content-Type", "multipart/form-data; boundary=xx")
            .header("If-Match", "\"" + revision + "\"")
            .POST(HttpRequest.BodyPublishers.ofString(body + "--xx--\r\n")));
  }

  private HttpResponse<String> choose(String book, long revision, String part) throws Exception {
    String body = "{\"part\":\"" + part + "\"}";
    return send(
        to(path(book))
            .header("If-Match", "\"" + revision + "\"")
            .PUT(HttpRequest.BodyPublishers.ofString(body)));
  }

  private static String path(String book) {
    return "/api/books/" + book + "/second";
  }

  private long revision(String book) throws Exception {
    return json(get(path(book))).path("revision").asLong();
  }

  private JsonNode bar(String book, int i) throws Exception {
    return json(get("/api/books/" + book + "/map")).path("bars").get(i);
  }

  private List<Path> scores(String book) throws Exception {
    try (Stream<Path> files = Files.list(folder.resolve("books").resolve(book))) {
      return files.filter(f -> f.toString().endsWith(".score")).toList();
    }
  }

  @Test
  void aScoreOfSeveralPartsWaitsForTheChoiceIsUsedAndGoesAgain() throws Exception {
    String book = readBook();
    assertThat(json(get(path(book))).has("second")).isFalse();
    HttpResponse<String> attached = attach(book, revision(book), score(35, "Reed 1", "Reed 2"));
    assertThat(attached.statusCode()).isEqualTo(200);
    JsonNode second = json(attached).path("second");
    assertThat(second.path("name").asString()).isEqualTo("score.musicxml");
    assertThat(second.path("part").asString()).isEmpty();
    assertThat(second.path("parts").get(1).path("name").asString()).isEqualTo("Reed 2");
    assertThat(second.path("parts").get(1).path("bars").asInt()).isEqualTo(12);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(1);
    JsonNode page = json(get("/api/books/" + book + "/map")).path("pages").get(0);
    assertThat(page.path("expectedWrong").asDouble(-1)).isBetween(0.0, 6.0);

    assertThat(choose(book, revision(book), "P2").statusCode()).isEqualTo(200);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(35);
    assertThat(bar(book, 11).path("number").asInt()).isEqualTo(46);
    assertThat(scores(book)).hasSize(1);

    HttpResponse<String> gone =
        send(to(path(book)).header("If-Match", "\"" + revision(book) + "\"").DELETE());
    assertThat(gone.statusCode()).isEqualTo(200);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(1);
    assertThat(scores(book)).isEmpty();
  }

  @Test
  void thePartCalledLikeTheBooksIsChosenAndAnotherFileTakesItsPlace() throws Exception {
    String book = readBook();
    HttpResponse<String> attached = attach(book, revision(book), score(35, "Flute", "Bass"));
    assertThat(json(attached).path("second").path("part").asString()).isEqualTo("P2");
    assertThat(attach(book, revision(book), score(7, "Anyone")).statusCode()).isEqualTo(200);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(7);
    assertThat(scores(book)).hasSize(1);
  }

  @Test
  void whatAPersonSetStays() throws Exception {
    String book = readBook();
    String set =
        "{\"kind\":\"set-number\",\"bar\":\"%s\",\"number\":100}"
            .formatted(bar(book, 6).path("id").asString());
    assertThat(post("/api/books/" + book + "/corrections", set, revision(book)).statusCode())
        .isEqualTo(200);
    attach(book, revision(book), score(35, "Anyone"));
    assertThat(bar(book, 6).path("number").asInt()).isEqualTo(100);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(35);
  }

  @Test
  void ofTwoEditorsTheSecondIsToldAndNothingIsKept() throws Exception {
    String book = readBook();
    long seen = revision(book);
    assertThat(attach(book, seen, score(35, "Anyone")).statusCode()).isEqualTo(200);
    HttpResponse<String> late = attach(book, seen, score(7, "Someone"));
    assertProblem(late, ApiError.STALE);
    assertThat(json(late).path("revision").asLong()).isEqualTo(revision(book));
    assertProblem(choose(book, seen, "P1"), ApiError.STALE);
    assertProblem(
        send(to(path(book)).header("If-Match", "\"" + seen + "\"").DELETE()), ApiError.STALE);
    assertProblem(send(to(path(book)).DELETE()), ApiError.NEEDS_REVISION);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(35);
    assertThat(scores(book)).hasSize(1);
  }

  @Test
  void badFilesAreRefusedAndNothingIsKept() throws Exception {
    String book = readBook();
    long now = revision(book);
    String bomb =
        "<!DOCTYPE x [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;\">]>"
            + "<score-partwise><part-list>&b;</part-list></score-partwise>";
    String outside =
        "<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/passwd\">]>"
            + score(1, "Anyone").replace("Anyone", "&a;");
    for (String bad : List.of("", "no score", "<score-partwise/>", "PK\u0003\u0004rest", bomb)) {
      assertProblem(attach(book, now, bad), ApiError.REFUSED);
    }
    assertThat(attach(book, now, outside).body()).doesNotContain("root:");
    assertProblem(attach(book, revision(book)), ApiError.NO_FILES);
    assertProblem(attach(book, revision(book), score(1, "A"), score(1, "B")), ApiError.NO_FILES);
    assertProblem(attach("nobook", 1, score(1, "A")), ApiError.NO_BOOK);
    assertThat(bar(book, 0).path("number").asInt()).isEqualTo(1);
  }

  @Test
  void aPartMustBeInTheScoreAndAScoreMustBeThere() throws Exception {
    String book = readBook();
    assertProblem(choose(book, revision(book), "P1"), ApiError.NOT_FOUND);
    attach(book, revision(book), score(1, "A", "B"));
    assertProblem(choose(book, revision(book), "P3"), ApiError.REFUSED);
  }

  @Test
  void aBookWithoutPagesKeepsItsScoreForLater() throws Exception {
    String book = newBook();
    HttpResponse<String> early = attach(book, revision(book), score(35, "Anyone"));
    assertThat(early.statusCode()).isEqualTo(200);
    assertThat(upload(book, "one.png", png(), "two.png", png()).statusCode()).isEqualTo(202);
    org.awaitility.Awaitility.await()
        .atMost(java.time.Duration.ofSeconds(60))
        .until(() -> json(get("/api/books/" + book)).path("bars").asInt() == 12);
    org.awaitility.Awaitility.await()
        .atMost(java.time.Duration.ofSeconds(60))
        .until(() -> bar(book, 11).path("number").asInt() == 46);
    assertThat(new String(Files.readAllBytes(scores(book).get(0)), StandardCharsets.UTF_8))
        .contains("Anyone");
  }
}
