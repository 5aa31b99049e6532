package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A MusicXML score opened as a book without pages. */
class ScoreRoutesTest extends RunningServer {

  private static String score(String... names) {
    StringBuilder list = new StringBuilder("<score-partwise><part-list>");
    StringBuilder parts = new StringBuilder();
    for (int i = 1; i <= names.length; i++) {
      list.append("<score-part id=\"P" + i + "\"><part-name>" + names[i - 1]);
      list.append("</part-name></score-part>");
      parts.append("<part id=\"P" + i + "\">");
      parts.append(
          "<measure number=\"1\"/><measure number=\"2\"><barline location=\"right\">"
              + "<repeat direction=\"backward\" times=\"3\"/></barline></measure></part>");
    }
    return list + "</part-list>" + parts + "</score-partwise>";
  }

  private HttpResponse<String> open(String query, String name, String content) throws Exception {
    String body =
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\""
            + name
            + "\"\r\nContent-Type: application/octet-stream\r\n\r\n"
            + content
            + "\r\n--xx--\r\n";
    return send(
        to("/api/books/open" + query)
            .header("Content-Type", "multipart/form-data; boundary=xx")
            .POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  @Test
  void aScoreOfOnePartIsOnTheShelfAndPlanned() throws Exception {
    HttpResponse<String> opened = open("", "low-tide.musicxml", score("Bass"));

    assertThat(opened.statusCode()).as(opened.body()).isEqualTo(201);
    JsonNode book = json(opened);
    assertThat(book.path("title").asString()).isEqualTo("low-tide");
    assertThat(book.path("part").asString()).isEqualTo("Bass");
    String path = "/api/books/" + book.path("id").asString();
    String plan = get(path + "/plan").body();
    assertThat(plan).contains("\"played\":{\"bars\":6");
    assertThat(get(path + "/roadmap").statusCode()).isEqualTo(200);
    assertThat(get(path + "/sheets/run.pdf").statusCode()).isEqualTo(200);
    JsonNode page = json(get(path)).path("pages").path(0);
    assertThat(page.path("score").asBoolean()).isTrue();
    assertThat(page.path("state").asString()).isEqualTo("read");
    assertProblem(
        get(path + "/pages/" + page.path("id").asString() + "/image"), ApiError.NO_PICTURE);
  }

  /** The file says what its bars are called: correcting one must not count the others anew. */
  @Test
  void correctingABarLeavesTheNumbersOfTheFile() throws Exception {
    String measures =
        "<measure number=\"0\" implicit=\"yes\"/><measure number=\"1\"/><measure number=\"2\"/>"
            + "<measure number=\"X1\" implicit=\"yes\"/><measure number=\"3\"/>"
            + "<measure number=\"3A\"/><measure number=\"4\"/><measure number=\"10\"/>";
    String score = score("Bass").replaceFirst("(?s)<measure number=\"1\"/>.*</measure>", measures);
    String path = "/api/books/" + json(open("", "a.musicxml", score)).path("id").asString();
    String before = numbers(path);

    HttpResponse<String> done =
        post(
            path + "/corrections",
            "{\"kind\":\"set-content\",\"bar\":\"b3\",\"content\":\"music\",\"count\":1}",
            json(get(path)).path("revision").asLong());

    assertThat(done.statusCode()).as(done.body()).isEqualTo(200);
    assertThat(before).isEqualTo("0 1 2 0 3 3A 4 10");
    assertThat(numbers(path)).isEqualTo(before);
  }

  private String numbers(String path) throws Exception {
    StringBuilder names = new StringBuilder();
    for (JsonNode bar : json(get(path + "/map")).path("bars")) {
      JsonNode label = bar.path("label");
      names.append(names.isEmpty() ? "" : " ");
      names.append(label.isMissingNode() ? bar.path("number").asString() : label.asString());
    }
    return names.toString();
  }

  @Test
  void ofSeveralPartsOneIsAskedFor() throws Exception {
    String score = score("Flute", "Bass");
    HttpResponse<String> asked = open("", "score.xml", score);

    assertProblem(asked, ApiError.WHICH_PART);
    JsonNode parts = json(asked).path("parts");
    assertThat(parts.path(1).path("name").asString()).isEqualTo("Bass");
    assertThat(parts.path(1).path("place").asInt()).isEqualTo(2);
    assertThat(json(open("?part=2", "score.xml", score)).path("part").asString()).isEqualTo("Bass");
    assertProblem(open("?part=Tuba", "score.xml", score), ApiError.WHICH_PART);
  }

  @Test
  void whatIsNoScoreIsRefusedAndNothingIsKept() throws Exception {
    int books = json(get("/api/books")).path("books").size();
    assertProblem(open("", "a.musicxml", "<html/>"), ApiError.REFUSED);
    assertProblem(open("", "a.musicxml", "<score-partwise><part"), ApiError.REFUSED);
    assertProblem(
        open(
            "",
            "a.musicxml",
            "<!DOCTYPE a [<!ENTITY b SYSTEM \"file:///etc/passwd\">]><score-partwise>&b;"),
        ApiError.REFUSED);
    assertThat(json(get("/api/books")).path("books").size()).isEqualTo(books);
  }
}
