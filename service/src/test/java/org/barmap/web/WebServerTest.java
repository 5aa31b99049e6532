package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.barmap.library.SqliteLibrary;
import org.barmap.map.BarMapJson;
import org.barmap.work.Events;
import org.barmap.work.StandInReader;
import org.barmap.work.Worker;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The service over real HTTP, with a real library. */
class WebServerTest {

  @TempDir private Path folder;

  private final HttpClient http = HttpClient.newHttpClient();
  private SqliteLibrary library;
  private Worker worker;
  private WebServer server;

  @BeforeEach
  void start() throws IOException {
    library = SqliteLibrary.open(folder, Clock.systemUTC());
    Events events = new Events();
    worker = new Worker(library, new StandInReader(), events);
    worker.start();
    server = WebServer.start(library, worker, events, folder, 0);
  }

  @AfterEach
  void stop() {
    server.close();
    worker.close();
    library.close();
  }

  private HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + path));
  }

  private HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private HttpResponse<String> get(String path) throws Exception {
    return send(to(path));
  }

  private HttpResponse<String> post(String path, String body) throws Exception {
    return send(to(path).POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  private HttpResponse<String> post(String path, String body, long revision) throws Exception {
    return send(
        to(path)
            .header("If-Match", "\"" + revision + "\"")
            .POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  private static JsonNode json(HttpResponse<String> response) {
    return BarMapJson.mapper().readTree(response.body());
  }

  private static void assertProblem(HttpResponse<String> response, ApiError error) {
    assertThat(response.body()).contains("\"code\":\"" + error.name() + "\"");
    assertThat(response.statusCode()).isEqualTo(error.status());
    assertThat(response.headers().firstValue("Content-Type").orElse(""))
        .startsWith("application/problem+json");
    assertThat(response.body()).doesNotContain("\tat ").doesNotContain("Exception");
  }

  private String newBook() throws Exception {
    HttpResponse<String> made = post("/api/books", "{\"title\":\"Saltmarsh\",\"part\":\"Bass\"}");
    assertThat(made.statusCode()).isEqualTo(201);
    return json(made).path("id").asString();
  }

  private static byte[] png() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(new BufferedImage(1000, 1400, BufferedImage.TYPE_BYTE_GRAY), "png", out);
    return out.toByteArray();
  }

  private HttpResponse<String> upload(String book, Object... namesAndBytes) throws Exception {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (int i = 0; i < namesAndBytes.length; i += 2) {
      String head =
          "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\""
              + namesAndBytes[i]
              + "\"\r\nContent-Type: application/octet-stream\r\n\r\n";
      body.write(head.getBytes(StandardCharsets.UTF_8));
      body.write((byte[]) namesAndBytes[i + 1]);
      body.write("\r\n".getBytes(StandardCharsets.UTF_8));
    }
    body.write("--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    return send(
        to("/api/books/" + book + "/pages")
            .header("Content-Type", "multipart/form-data; boundary=xx")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  private String readBook() throws Exception {
    String book = newBook();
    assertThat(upload(book, "one.png", png(), "two.png", png()).statusCode()).isEqualTo(202);
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> json(get("/api/books/" + book)).path("bars").asInt() == 12);
    await()
        .atMost(Duration.ofSeconds(60))
        .until(() -> json(get("/api/books/" + book)).path("job").isMissingNode());
    return book;
  }

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
    assertThat(json(late).path("revision").asLong()).isEqualTo(revision + 1);
    assertProblem(post(corrections, count), ApiError.NEEDS_REVISION);
    HttpResponse<String> undone = post("/api/books/" + book + "/undo", "", revision + 1);
    assertThat(json(undone).path("map").path("bars").get(1).path("count").asInt()).isEqualTo(1);
    HttpResponse<String> verified =
        post(corrections, "{\"kind\":\"verify-page\",\"page\":1,\"verified\":true}", revision + 2);
    assertThat(verified.statusCode()).isEqualTo(200);
    JsonNode shown = json(get("/api/books/" + book));
    assertThat(shown.path("verifiedPages").asInt()).isEqualTo(1);
    assertThat(shown.path("pages").get(0).path("state").asString()).isEqualTo("verified");
  }

  @Test
  void changesCountInThePlanAndTheirHistoryGoesBack() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book + "/changes";
    String cut = "{\"kind\":\"cut\",\"first\":\"3\",\"last\":\"5\"}";
    HttpResponse<String> made = post(path, cut, 0);
    assertThat(made.statusCode()).as(made.body()).isEqualTo(201);
    String id = json(made).path("change").path("id").asString();
    assertThat(json(made).path("checks")).as(made.body()).isEmpty();
    assertThat(json(get("/api/books/" + book + "/plan")).path("numbers").get(0).path("order"))
        .hasSize(9);
    assertThat(
            json(get("/api/books/" + book + "/plan?without=changes"))
                .path("numbers")
                .get(0)
                .path("order"))
        .hasSize(12);
    JsonNode road = json(get("/api/books/" + book + "/roadmap")).path("numbers").get(0);
    assertThat(road.path("bars").get(2).path("cut").asBoolean()).isTrue();
    assertThat(road.path("bars").get(5).path("cut").asBoolean()).isFalse();
    HttpResponse<String> off =
        send(
            to(path + "/" + id)
                .header("If-Match", "\"1\"")
                .method("PATCH", HttpRequest.BodyPublishers.ofString("{\"on\":false}")));
    assertThat(off.statusCode()).isEqualTo(200);
    assertThat(json(get(path)).path("changes").get(0).path("on").asBoolean(true)).isFalse();
    assertThat(post(path + "/undo", "", 2).statusCode()).isEqualTo(200);
    assertProblem(post(path, "{\"kind\":\"cut\"}", 3), ApiError.REFUSED);
    assertProblem(send(to(path + "/nix").header("If-Match", "3").DELETE()), ApiError.NO_CHANGE);
  }

  @Test
  void wordsAreUnderstoodOrAskedBackAndNothingIsStored() throws Exception {
    String book = readBook();
    HttpResponse<String> heard =
        post(
            "/api/books/" + book + "/changes/understand",
            "{\"text\":\"cut 3 to 5\\nfrobnicate 9\"}");
    JsonNode lines = json(heard).path("lines");
    assertThat(lines.get(0).has("understood")).as(heard.body()).isTrue();
    assertThat(lines.get(0).path("understood").path("kind").asString()).isEqualTo("cut");
    assertThat(lines.get(0).path("says").asString()).isNotEmpty();
    assertThat(lines.get(1).path("asks").asString()).isNotEmpty();
    assertThat(json(get("/api/books/" + book + "/changes")).path("changes")).isEmpty();
  }

  @Test
  void sheetsArePrinted() throws Exception {
    String book = readBook();
    for (String sheet : List.of("run", "turns", "rests", "changes", "pencil", "erase")) {
      HttpResponse<String> pdf =
          get("/api/books/" + book + "/sheets/" + sheet + ".pdf?paper=Letter&big=true");
      assertThat(pdf.statusCode()).as(sheet).isEqualTo(200);
      assertThat(pdf.body()).as(sheet).startsWith("%PDF");
    }
    assertProblem(get("/api/books/" + book + "/sheets/songs.pdf"), ApiError.NOT_FOUND);
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
  void eventsComeAsTheyHappen() throws Exception {
    String book = newBook();
    try (Socket socket = new Socket("127.0.0.1", server.port())) {
      socket.setSoTimeout(30_000);
      socket
          .getOutputStream()
          .write(
              ("GET /api/books/"
                      + book
                      + "/events HTTP/1.1\r\nHost: 127.0.0.1:"
                      + server.port()
                      + "\r\nAccept: text/event-stream\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      readUntil(socket.getInputStream(), ": here");
      upload(book, "one.png", png());
      String heard = readUntil(socket.getInputStream(), "\"state\":\"done\"");
      assertThat(heard).contains("event: page").contains("event: map").contains("Reading page 1");
    }
  }

  private static String readUntil(InputStream in, String mark) throws IOException {
    StringBuilder text = new StringBuilder();
    while (text.indexOf(mark) < 0) {
      int c = in.read();
      assertThat(c).as("the stream ended after: " + text).isNotNegative();
      text.append((char) c);
    }
    return text.toString();
  }

  @ParameterizedTest
  @ValueSource(strings = {"evil.example", "evil.example:80", "127.0.0.1.evil.example", "10.0.0.1"})
  void otherHostsGetNothing(String host) throws Exception {
    try (Socket socket = new Socket("127.0.0.1", server.port())) {
      socket.setSoTimeout(30_000);
      socket
          .getOutputStream()
          .write(
              ("GET /api/books HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n")
                  .getBytes(StandardCharsets.US_ASCII));
      String answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(answer).contains(" 403 ").contains("FOREIGN");
    }
  }

  @Test
  void otherSitesMayNotAsk() throws Exception {
    HttpRequest.Builder foreign =
        to("/api/books")
            .header("Origin", "http://evil.example")
            .POST(HttpRequest.BodyPublishers.ofString("{}"));
    assertProblem(send(foreign), ApiError.FOREIGN);
    assertProblem(send(to("/api/books").header("Sec-Fetch-Site", "cross-site")), ApiError.FOREIGN);
    HttpRequest.Builder own =
        to("/api/books")
            .header("Origin", "http://127.0.0.1:" + server.port())
            .POST(HttpRequest.BodyPublishers.ofString("{}"));
    assertThat(send(own).statusCode()).isEqualTo(201);
  }

  @Test
  void pagesCarryTheirPolicy() throws Exception {
    HttpResponse<String> page = get("/");
    assertThat(page.statusCode()).isEqualTo(200);
    assertThat(page.headers().firstValue("Content-Security-Policy").orElse(""))
        .startsWith("default-src 'self'")
        .doesNotContain("unsafe");
    assertThat(page.headers().firstValue("X-Content-Type-Options")).contains("nosniff");
    assertThat(get("/../barmap.db").statusCode()).isNotEqualTo(200);
    assertThat(get("/%2e%2e/barmap.db").statusCode()).isNotEqualTo(200);
  }

  @Test
  void nonsenseIsAnsweredInPlainWords() throws Exception {
    String book = newBook();
    assertProblem(get("/api/books/nobook"), ApiError.NO_BOOK);
    assertProblem(get("/api/books/" + book + "/pages/nopage/image"), ApiError.NO_PAGE);
    assertProblem(get("/api/nothing"), ApiError.NOT_FOUND);
    assertProblem(
        send(to("/api/books").PUT(HttpRequest.BodyPublishers.ofString("{}"))),
        ApiError.WRONG_METHOD);
    assertProblem(post("/api/books", "{"), ApiError.BAD_REQUEST);
    assertProblem(post("/api/books", "[]"), ApiError.BAD_REQUEST);
    String corrections = "/api/books/" + book + "/corrections";
    assertProblem(post(corrections, "{\"kind\":\"explode\"}", 0), ApiError.BAD_REQUEST);
    assertProblem(
        post(corrections, "{\"kind\":\"set-count\",\"bar\":\"b1\",\"count\":\"many\"}", 0),
        ApiError.BAD_REQUEST);
    assertProblem(
        post(corrections, "{\"kind\":\"set-count\",\"bar\":\"b1\",\"count\":2}", 0),
        ApiError.REFUSED);
    assertProblem(post("/api/books", "x".repeat(5 << 20)), ApiError.TOO_LARGE);
    HttpResponse<String> settings =
        send(
            to("/api/books/" + book + "/settings")
                .PUT(HttpRequest.BodyPublishers.ofString("{\"turnSeconds\":900}")));
    assertProblem(settings, ApiError.REFUSED);
    assertThat(get("/api/about").statusCode()).isEqualTo(200);
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
                .method(
                    "PATCH", HttpRequest.BodyPublishers.ofString("{\"title\":\"<b>Ebb</b>\"}")));
    assertThat(json(renamed).path("title").asString()).isEqualTo("<b>Ebb</b>");
    assertThat(renamed.headers().firstValue("Content-Type").orElse("")).contains("json");
    assertThat(json(get("/api/books")).path("books")).hasSize(1);
  }

  @Test
  void everyErrorHasItsStatusAndItsPlainSentence() {
    assertThat(List.of(ApiError.values()))
        .allSatisfy(
            error -> {
              assertThat(error.status()).isBetween(400, 599);
              assertThat(error.title())
                  .isNotBlank()
                  .doesNotContain("Exception")
                  .hasSizeLessThan(90);
            });
    assertThat(Stream.of(ApiError.values()).map(ApiError::title)).doesNotHaveDuplicates();
  }
}
