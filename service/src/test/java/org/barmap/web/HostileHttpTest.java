package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.Socket;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Other sites, nonsense and what is refused. */
class HostileHttpTest extends RunningServer {

  @Override
  protected boolean isOdd() {
    return true;
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
    assertProblem(post("/api/books/" + book + "/pages/skip", "{}"), ApiError.NO_PAGE);
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
                .header("If-Match", "\"0\"")
                .PUT(HttpRequest.BodyPublishers.ofString("{\"turnSeconds\":900}")));
    assertProblem(settings, ApiError.REFUSED);
    assertThat(get("/api/about").statusCode()).isEqualTo(200);
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
