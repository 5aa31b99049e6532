package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;

/** What breaks off, is malformed, or comes in crowds. */
class HostileWireTest extends RunningServer {

  @Override
  protected boolean isOdd() {
    return true;
  }

  /** Somebody who is held up longer is shut out; the server itself gives up after 30 s. */
  private static final int PATIENCE = 10_000;

  private Socket connect() throws IOException {
    Socket socket = new Socket("127.0.0.1", server.port());
    socket.setSoTimeout(PATIENCE);
    return socket;
  }

  /** Who asks is the owner: what is tested lies behind the door. */
  private void send(Socket to, String text) throws IOException {
    String wire = text.replace("\n", "\r\n");
    String host = "Host: 127.0.0.1\r\n";
    to.getOutputStream()
        .write(wire.replace(host, host + keyLine()).getBytes(StandardCharsets.ISO_8859_1));
    to.getOutputStream().flush();
  }

  /** Sends bytes and nothing more; returns all that comes back. */
  private String raw(String text) throws IOException {
    try (Socket socket = connect()) {
      send(socket, text);
      socket.shutdownOutput();
      ByteArrayOutputStream answer = new ByteArrayOutputStream();
      try {
        socket.getInputStream().transferTo(answer);
      } catch (SocketTimeoutException e) {
        throw e;
      } catch (IOException e) {
        // a server may close on bytes it has not read; what it said before counts
        return answer.toString(StandardCharsets.UTF_8);
      }
      return answer.toString(StandardCharsets.UTF_8);
    }
  }

  @Test
  void barNumbersFarAwayAreTakenOrRefused() throws Exception {
    String book = readBook();
    String bar = library.drafts().find(book).orElseThrow().value().map().bars().get(1).id();
    for (int number : new int[] {3_999, 4_000, 7_777, 99_999, -1}) {
      long now = library.drafts().find(book).orElseThrow().revision();
      String body = "{\"kind\":\"set-number\",\"bar\":\"%s\",\"number\":%d}".formatted(bar, number);
      HttpResponse<String> answer = post("/api/books/" + book + "/corrections", body, now);
      assertThat(answer.statusCode()).as(number + ": " + answer.body()).isIn(200, 422);
      HttpResponse<String> checked =
          post("/api/books/" + book + "/corrections/check", "{\"corrections\":[" + body + "]}");
      assertThat(checked.statusCode()).as(checked.body()).isIn(200, 422);
      assertThat(get("/api/books/" + book + "/plan").statusCode()).isEqualTo(200);
    }
  }

  @Test
  void uploadsThatBreakOffOrMakeNoSense() throws Exception {
    String book = newBook();
    for (String to : List.of("pages", "second")) {
      String address = "/api/books/" + book + "/" + to;
      String post =
          "POST "
              + address
              + " HTTP/1.1\nHost: 127.0.0.1\nIf-Match: \"0\"\nConnection: close\n"
              + "Content-Type: multipart/form-data; boundary=xx\n";
      String part = "--xx\nContent-Disposition: form-data; name=\"files\"; filename=\"a.png\"\n\n";
      List<String> answers =
          List.of(
              raw(post + "Content-Length: 100000\n\n" + part + "half a picture"),
              raw(post + "Transfer-Encoding: chunked\n\n20\n" + part),
              raw(post + "Content-Length: 9\n\nno parts!"),
              raw(post + "Content-Length: 0\n\n"),
              raw(post + "Content-Length: 6\n\n--xx\n\n"),
              raw(post.replace("; boundary=xx", "") + "Content-Length: 9\n\nno parts!"));
      for (String answer : answers) {
        assertThat(answer).containsAnyOf(" 400 ", " 413 ").contains("application/problem+json");
        assertThat(answer).doesNotContain("Exception");
      }
    }
    assertThat(
            raw(
                "POST /api/books/open HTTP/1.1\nHost: 127.0.0.1\nConnection: close\n"
                    + "Content-Type: multipart/form-data; boundary=xx\nContent-Length: 9\n\nno parts!"))
        .contains(" 400 ");
    assertThat(json(get("/api/books/" + book)).path("pages").size()).isZero();
  }

  @Test
  void whatTheServerItselfRefusesCarriesThePolicyToo() throws Exception {
    String end = "Host: 127.0.0.1\nConnection: close\n\n";
    for (String request :
        List.of(
            "GET / HTTP/9.9\n" + end,
            "GET / HTTP/1.1\nno header\n" + end,
            "GET / HTTP/1.1\nConnection: close\n\n",
            "GET /%zz HTTP/1.1\n" + end,
            "GET /a%2fb%00c HTTP/1.1\n" + end,
            "GET /" + "x".repeat(20_000) + " HTTP/1.1\n" + end,
            "GET / HTTP/1.1\nX: " + "x".repeat(20_000) + "\n" + end,
            "POST /api/books HTTP/1.1\nContent-Length: x\n" + end,
            "BREW / HTTP/1.1\n" + end,
            "\u0001\u0002\u0003\n\n")) {
      String answer = raw(request);
      String shown = request.substring(0, Math.min(40, request.length())) + " -> " + answer;
      assertThat(answer).as(shown).matches("(?s)HTTP/1.1 (4\\d\\d|501|505) .*");
      assertThat(answer).as(shown).contains("Content-Security-Policy: default-src 'self'");
      assertThat(answer).as(shown).contains("application/problem+json", "\"code\"");
      assertThat(answer)
          .as(shown)
          .doesNotContain("INTERNAL")
          .doesNotContainIgnoringCase("<html")
          .doesNotContain("etty");
    }
  }

  @Test
  void tagsAndTextsAreWhatTheyHaveToBe() throws Exception {
    String book = newBook();
    HttpRequest.BodyPublisher body = HttpRequest.BodyPublishers.ofString("{\"title\":\"Ebb\"}");
    String address = "/api/books/" + book;
    // RFC 9110, 13.1.1: a weak tag never matches
    assertProblem(
        send(to(address).header("If-Match", "W/\"0\"").method("PATCH", body)), ApiError.STALE);
    for (String wrong : List.of("7", "[]", "{}", "true")) {
      assertProblem(
          post("/api/books", "{\"title\":" + wrong + ",\"part\":\"Bass\"}"), ApiError.BAD_REQUEST);
    }
    HttpResponse<String> marked = post("/api/books", "\uFEFF{\"title\":\"Neap\",\"part\":\"\"}");
    assertThat(marked.statusCode()).as(marked.body()).isEqualTo(201);
    assertThat(json(marked).path("title").asString()).isEqualTo("Neap");
    String map = BarMapJson.write(library.drafts().find(book).orElseThrow().value().map());
    assertThat(BarMapJson.read("\uFEFF" + map)).isEqualTo(BarMapJson.read(map));
  }

  @Test
  void manyListenersAreHeardAndThoseWhoVanishShutNobodyOut() throws Exception {
    String book = newBook();
    String listen =
        "GET /api/books/"
            + book
            + "/events HTTP/1.1\nHost: 127.0.0.1\nAccept: text/event-stream\n\n";
    List<Socket> all = new ArrayList<>();
    try {
      for (int i = 0; i < 260; i++) {
        Socket socket = connect();
        all.add(socket);
        send(socket, listen);
      }
      for (Socket socket : all) {
        assertThat(untilHere(socket)).contains(": here");
      }
      for (Socket socket : all) {
        socket.setSoLinger(true, 0); // without a word
        socket.close();
      }
      Socket next = connect();
      all.add(next);
      send(next, listen);
      assertThat(untilHere(next)).contains(": here");
    } finally {
      for (Socket socket : all) {
        socket.close();
      }
    }
  }

  private static String untilHere(Socket socket) throws IOException {
    StringBuilder text = new StringBuilder();
    for (int c = 0; c >= 0 && text.indexOf(": here") < 0; c = socket.getInputStream().read()) {
      text.append((char) c);
    }
    return text + (text.indexOf(": her") < 0 ? "" : "e");
  }

  @Test
  void bodiesThatNeverEndHoldNobodyUp() throws Exception {
    String half =
        "POST /api/books HTTP/1.1\nHost: 127.0.0.1\nContent-Type: application/json\n"
            + "Content-Length: 1000\n\n{\"title\":";
    List<Socket> all = new ArrayList<>();
    try {
      for (int i = 0; i < 400; i++) {
        Socket socket = connect();
        all.add(socket);
        send(socket, half);
      }
      for (int i = 0; i < 20; i++) {
        assertThat(raw("GET /api/books HTTP/1.1\nHost: 127.0.0.1\nConnection: close\n\n"))
            .contains(" 200 ");
      }
      assertThat(newBook()).isNotEmpty();
    } finally {
      for (Socket socket : all) {
        socket.close();
      }
    }
  }
}
