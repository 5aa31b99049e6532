package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.InputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** Books, pages and corrections over real HTTP, with a real library. */
class WebServerTest extends RunningServer {

  @Test
  void pagesAreUploadedReadAndCorrected() throws Exception {
    String book = readBook();
    HttpResponse<String> map = get("/api/books/" + book + "/map");
    long revision = Long.parseLong(map.headers().firstValue("ETag").orElse("").replace("\"", ""));
    assertThat(map.headers().firstValue("Barmap-State")).contains("draft");
    JsonNode bar = json(map).path("bars").get(1);
    assertThat(json(map).path("pages").get(0).path("id").asString()).isNotEmpty();
    String count =
        "{\"kind\":\"set-count\",\"bar\":\"" + bar.path("id").asString() + "\",\"count\":8}";
    String corrections = "/api/books/" + book + "/corrections";
    HttpResponse<String> made = post(corrections, count, revision);
    assertThat(made.statusCode()).isEqualTo(200);
    assertThat(json(made).path("entry").path("text").asString()).isEqualTo("Rest at bar 2: 1 → 8");
    assertThat(json(made).path("map").path("bars").get(2).path("number").asInt()).isEqualTo(10);
    HttpResponse<String> late = post(corrections, count, revision);
    assertProblem(late, ApiError.STALE);
    assertThat(late.statusCode()).as("RFC 9110, 13.1.1: If-Match fails").isEqualTo(412);
    assertThat(post(corrections, count).statusCode()).as("RFC 6585, 3").isEqualTo(428);
    assertThat(json(late).has("title") && json(late).has("status")).as("RFC 9457, 3.1").isTrue();
    assertThat(json(late).path("revision").asLong()).isEqualTo(revision + 1);
    assertProblem(post(corrections, count), ApiError.NEEDS_REVISION);
    HttpResponse<String> undone = post("/api/books/" + book + "/undo", "", revision + 1);
    assertThat(json(undone).path("map").path("bars").get(1).path("count").asInt()).isEqualTo(1);
    String unsaid = "{\"kind\":\"verify-page\",\"page\":1}";
    assertProblem(post(corrections, unsaid, revision + 2), ApiError.BAD_REQUEST);
    assertProblem(
        post(corrections + "/check", "{\"corrections\":[" + unsaid + "]}"), ApiError.BAD_REQUEST);
    HttpResponse<String> verified =
        post(corrections, "{\"kind\":\"verify-page\",\"page\":1,\"verified\":true}", revision + 2);
    assertThat(verified.statusCode()).isEqualTo(200);
    JsonNode shown = json(get("/api/books/" + book));
    assertThat(shown.path("verifiedPages").asInt()).isEqualTo(1);
    assertThat(shown.path("pages").get(0).path("state").asString()).isEqualTo("verified");
  }

  @Test
  void badFilesAreNamedAndTheOthersTaken() throws Exception {
    String book = newBook();
    HttpResponse<String> some =
        upload(
            book,
            "empty.png",
            new byte[0],
            "../../x.txt.png",
            "text".getBytes(StandardCharsets.UTF_8),
            "one.png",
            png());
    assertThat(some.statusCode()).isEqualTo(202);
    assertThat(json(some).path("accepted")).hasSize(1);
    assertThat(json(some).path("refused").get(0).path("detail").asString()).contains("empty");
    assertThat(json(some).path("refused").get(1).path("name").asString()).isEqualTo("x.txt.png");
    assertProblem(upload(book, "empty.png", new byte[0]), ApiError.REFUSED);
    assertProblem(
        send(
            to("/api/books/" + book + "/pages")
                .header("Content-Type", "multipart/form-data; boundary=xx")
                .POST(HttpRequest.BodyPublishers.ofString("--xx--\r\n"))),
        ApiError.NO_FILES);
  }

  @Test
  void picturesAreShownSmallerAndCutAndKeptForNextTime() throws Exception {
    String book = readBook();
    String page = json(get("/api/books/" + book)).path("pages").get(0).path("id").asString();
    String image = "/api/books/" + book + "/pages/" + page + "/image";
    assertThat(folder.resolve("cache").resolve(page + "-400.jpg"))
        .as("what the list of pages shows is made before it is asked for")
        .exists();
    BufferedImage small = picture(image + "?width=300");
    assertThat(small.getWidth()).isEqualTo(300);
    assertThat(small.getHeight()).isEqualTo(420);
    assertThat(picture(image).getWidth()).isEqualTo(1000);
    try (Stream<Path> cached = Files.list(folder.resolve("cache"))) {
      assertThat(cached.map(f -> f.getFileName().toString())).contains(page + "-300.jpg");
    }
    String bar = json(get("/api/books/" + book + "/map")).path("bars").get(0).path("id").asString();
    BufferedImage crop =
        picture("/api/books/" + book + "/pages/" + page + "/crop?bar=" + bar + "&width=200");
    assertThat(crop.getWidth()).isEqualTo(200);
    assertProblem(
        get("/api/books/" + book + "/pages/" + page + "/crop?bar=nobody"), ApiError.NO_BAR);
    assertProblem(get(image + "?width=wide"), ApiError.BAD_REQUEST);
  }

  private BufferedImage picture(String path) throws Exception {
    HttpResponse<InputStream> response =
        http.send(to(path).build(), HttpResponse.BodyHandlers.ofInputStream());
    assertThat(response.statusCode()).isEqualTo(200);
    return ImageIO.read(response.body());
  }

  @Test
  void booksGoToTheBinAndComeBack() throws Exception {
    String book = newBook();
    assertThat(send(to("/api/books/" + book).DELETE()).statusCode()).isEqualTo(204);
    assertProblem(get("/api/books/" + book), ApiError.NO_BOOK);
    assertThat(post("/api/books/" + book + "/restore", "").statusCode()).isEqualTo(200);
    HttpResponse<String> renamed =
        send(
            to("/api/books/" + book)
                .header("If-Match", "\"0\"")
                .method(
                    "PATCH", HttpRequest.BodyPublishers.ofString("{\"title\":\"<b>Ebb</b>\"}")));
    assertThat(json(renamed).path("title").asString()).isEqualTo("<b>Ebb</b>");
    assertThat(renamed.headers().firstValue("Content-Type").orElse("")).contains("json");
    assertThat(json(get("/api/books")).path("books")).hasSize(1);
  }

  /** What a browser asks for when an address is typed: the HTML standard's Accept of a page. */
  @Test
  void anAddressNobodyKnowsIsAPageForAPersonAndAProblemForAProgram() throws Exception {
    HttpResponse<String> person =
        send(to("/nothing-here").header("Accept", "text/html,application/xhtml+xml").GET());
    assertThat(person.statusCode()).isEqualTo(404);
    assertThat(person.headers().firstValue("Content-Type").orElse("")).contains("text/html");
    assertThat(person.body()).contains("To the shelf");
    assertProblem(get("/nothing-here"), ApiError.NOT_FOUND);
    assertProblem(
        send(to("/api/nothing-here").header("Accept", "text/html").GET()), ApiError.NOT_FOUND);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/index.html",
        "/book.html",
        "/desk.html",
        "/road.html",
        "/turns.html",
        "/practice.html"
      })
  void aPageNamesFilesThatAreThere(String address) throws Exception {
    HttpResponse<String> page = get(address);
    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.headers().firstValue("Content-Type").orElse("")).contains("text/html");
    assertThat(page.headers().firstValue("Cache-Control")).contains("no-cache");
    assertThat(page.body()).doesNotContain("{{");
    List<String> named =
        Pattern.compile("(?:src|href)=\"(/[^\"]+)\"")
            .matcher(page.body())
            .results()
            .map(m -> m.group(1))
            .toList();
    assertThat(named)
        .as("two styles, two scripts, a sign, and the modules the page needs, each once")
        .hasSizeGreaterThan(5)
        .doesNotHaveDuplicates();
    for (String file : named) {
      assertThat(get(file).statusCode()).as(file).isEqualTo(200);
    }
  }
}
