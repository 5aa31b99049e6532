package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.web.api.ApiError;
import org.barmap.web.share.Guests;
import org.barmap.web.share.Role;
import org.barmap.web.share.Seen;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * The service over the local net: without a key nothing, with one what it is for and no more. A
 * second address of the loopback net stands for the local net: it is another address than the one
 * this machine's own requests come to, which is what the guard goes by.
 */
class ShareRoutesTest extends RunningServer {

  /** What a phone may do, written from the purpose: bring pages, see how they were read. */
  private static final List<String> PHONE =
      List.of(
          "GET /api/books/{b}",
          "GET /api/books/{b}/events",
          "POST /api/books/{b}/pages",
          "POST /api/books/{b}/pages/{p}/retake");

  /** What stays at the machine itself, whoever comes. */
  private static final List<String> HERE_ONLY =
      List.of(
          "GET /api/about",
          "GET /api/books",
          "POST /api/books",
          "POST /api/books/open",
          "PATCH /api/books/{b}",
          "DELETE /api/books/{b}",
          "GET /api/kept",
          "DELETE /api/kept/set-aside",
          "GET /api/bin",
          "PUT /api/bin",
          "DELETE /api/bin",
          "DELETE /api/books/{b}/pictures",
          "DELETE /api/bin/{b}",
          "POST /api/books/{b}/restore",
          "POST /api/books/{b}/pages/order",
          "DELETE /api/books/{b}/pages/{p}",
          "GET /api/books/{b}/pack",
          "POST /api/books/{b}/second",
          "PUT /api/books/{b}/second",
          "DELETE /api/books/{b}/second",
          "GET /api/books/{b}/share",
          "POST /api/books/{b}/share",
          "DELETE /api/books/{b}/share",
          "GET /api/books/{b}/share/{as}");

  @Override
  List<InetAddress> shareAt() throws IOException {
    return List.of(InetAddress.getByName("127.0.0.2"));
  }

  private HttpRequest.Builder away(String path, String cookie) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.2:" + server.port() + path));
    return cookie.isEmpty() ? request : request.header("Cookie", cookie);
  }

  private HttpResponse<String> asked(String route, String book, String cookie) throws Exception {
    String[] parts = route.split(" ");
    String path = parts[1].replace("{b}", book).replace("{p}", "p1").replaceAll("\\{\\w+}", "c1");
    return send(away(path, cookie).method(parts[0], HttpRequest.BodyPublishers.ofString("{}")));
  }

  private String link(String book, String as) throws Exception {
    JsonNode state = json(post("/api/books/" + book + "/share", "{\"as\":\"" + as + "\"}"));
    for (JsonNode open : state.path("open")) {
      if (open.path("as").asString().equals(as)) {
        return open.path("links").path(0).asString();
      }
    }
    throw new AssertionError("not open: " + state);
  }

  private HttpResponse<String> follow(String link) throws Exception {
    return send(HttpRequest.newBuilder(URI.create(link)));
  }

  private String cookie(String book, String as) throws Exception {
    HttpResponse<String> entered = follow(link(book, as));
    assertThat(entered.statusCode()).isEqualTo(302);
    assertThat(entered.headers().firstValue("Location").orElse(""))
        .startsWith("/")
        .doesNotContain("key");
    String cookie = entered.headers().firstValue("Set-Cookie").orElse("");
    assertThat(cookie).contains("; HttpOnly").contains("; SameSite=Lax");
    return cookie.substring(0, cookie.indexOf(';'));
  }

  @Test
  void withoutAKeyNothingIsGiven() throws Exception {
    String book = newBook();
    List<String> all = new ArrayList<>(server.routes());
    all.addAll(
        List.of("GET /", "GET /desk.html", "GET /js/core/dom.js", "GET /sw.js", "GET /site.json"));
    all.addAll(List.of("GET /nothing", "HEAD /css/base.css", "GET /favicon.svg"));
    for (String route : all) {
      HttpResponse<String> answer = asked(route, book, "");
      assertThat(answer.statusCode()).as(route).isEqualTo(403);
      assertThat(answer.body()).as(route).doesNotContain("Saltmarsh");
    }
    assertProblem(
        asked("GET /api/books", book, "barmap-" + server.port() + "="), ApiError.NEEDS_KEY);
    HttpResponse<String> page = send(away("/", "").header("Accept", "text/html"));
    assertThat(page.body()).contains("Scan the code").doesNotContain("stylesheet");
  }

  @Test
  void aPhoneMayBringPagesAndSeeThemAndNothingElse() throws Exception {
    String book = newBook();
    String other = newBook();
    String cookie = cookie(book, "phone");
    for (String route : server.routes()) {
      if (!route.endsWith("/events")) {
        HttpResponse<String> answer = asked(route, book, cookie);
        boolean refused = answer.body().contains(ApiError.HERE_ONLY.name());
        assertThat(refused).as(route).isEqualTo(!PHONE.contains(route));
      }
      assertProblem(asked(route, other, cookie), ApiError.HERE_ONLY);
    }
    assertThat(asked("GET /phone.html", book, cookie).statusCode()).isEqualTo(200);
    assertThat(asked("GET /js/core/dom.js", book, cookie).statusCode()).isEqualTo(200);
    assertThat(asked("GET /desk.html", book, cookie).statusCode()).isEqualTo(403);
    assertThat(asked("GET /js/../site.json", book, cookie).statusCode()).isNotEqualTo(200);
    assertThat(asked("GET /", book, cookie).headers().firstValue("Location"))
        .contains("/phone.html?b=" + book);
    assertThat(taken(book, cookie).statusCode()).isEqualTo(202);
  }

  private HttpResponse<String> taken(String book, String cookie) throws Exception {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.write(
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"p.png\"\r\n\r\n"
            .getBytes(StandardCharsets.UTF_8));
    body.write(png());
    body.write("\r\n--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    return send(
        away("/api/books/" + book + "/pages", cookie)
            .header("Content-Type", "multipart/form-data; boundary=xx")
            .header("Origin", "http://127.0.0.2:" + server.port())
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  @Test
  void aSectionMateMayDoAllButWhatStaysAtTheMachine() throws Exception {
    String book = newBook();
    String cookie = cookie(book, "desk");
    for (String route : server.routes()) {
      if (!route.endsWith("/events")) {
        boolean refused = asked(route, book, cookie).body().contains(ApiError.HERE_ONLY.name());
        assertThat(refused).as(route).isEqualTo(HERE_ONLY.contains(route));
      }
    }
  }

  @Test
  void theHostMustBeTheAddressItself() throws Exception {
    String book = newBook();
    String cookie = cookie(book, "phone");
    for (String host : List.of("evil.example", "127.0.0.1", "localhost", "")) {
      assertThat(raw("127.0.0.2", host, book, cookie)).as(host).doesNotContain("Saltmarsh");
    }
    assertThat(raw("127.0.0.2", "127.0.0.2", book, cookie)).contains("Saltmarsh");
    assertThat(raw("127.0.0.1", "127.0.0.2", book, cookie)).contains(ApiError.FOREIGN.name());
    HttpRequest.Builder foreign =
        away("/api/books/" + book, cookie).header("Origin", "http://evil.example");
    assertProblem(send(foreign), ApiError.FOREIGN);
  }

  private String raw(String to, String host, String book, String cookie) throws IOException {
    try (Socket socket = new Socket(to, server.port())) {
      socket.setSoTimeout(30_000);
      String request =
          "GET /api/books/%s HTTP/1.1\r\nHost: %s\r\nCookie: %s\r\nConnection: close\r\n\r\n"
              .formatted(book, host, cookie);
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void endingClosesTheBookAndTheLinesOfGuests() throws Exception {
    String book = newBook();
    String cookie = cookie(book, "phone");
    String link = link(book, "phone");
    try (Socket line = new Socket("127.0.0.2", server.port())) {
      line.setSoTimeout(30_000);
      String request =
          "GET /api/books/%s/events HTTP/1.1\r\nHost: 127.0.0.2\r\nCookie: %s\r\nAccept: text/event-stream\r\n\r\n"
              .formatted(book, cookie);
      line.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      StringBuilder heard = new StringBuilder();
      while (heard.indexOf(": here") < 0) {
        int next = line.getInputStream().read();
        assertThat(next).as("the line ended after: " + heard).isNotNegative();
        heard.append((char) next);
      }
      send(to("/api/books/" + book + "/share").DELETE());
      upload(book, "one.png", png());
      String rest = new String(line.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(rest).doesNotContain("event: page").doesNotContain("event: map");
    }
    HttpResponse<String> after = asked("GET /api/books/{b}", book, cookie);
    assertProblem(after, ApiError.NEEDS_KEY);
    assertThat(after.body()).contains("Sharing was ended");
    assertThat(follow(link).statusCode()).isEqualTo(403);
    assertThat(link(book, "phone")).as("another key the next time").isNotEqualTo(link);
  }

  @Test
  void wrongKeysAreSlowedAndNoLogHasAKey() throws Exception {
    List<String> logged = new ArrayList<>();
    Handler handler = listening(logged);
    Logger root = Logger.getLogger("");
    root.addHandler(handler);
    String book = newBook();
    String link = link(book, "desk");
    String key = link.substring(link.indexOf('=') + 1);
    assertThat(key).hasSizeGreaterThanOrEqualTo(27);
    try {
      String cookie = cookie(book, "desk");
      raw("127.0.0.2", "127.0.0.2", "%ZZ/../" + key, cookie);
      raw("127.0.0.2", "no host of ours", book + "?key=" + key, cookie);
      asked("POST /share?key=" + key, book, cookie);
      String bad = link.replace(key, key.substring(1) + "x");
      for (int i = 0; i < 5; i++) {
        HttpResponse<String> wrong = follow(bad);
        assertProblem(wrong, ApiError.NEEDS_KEY);
        assertThat(wrong.body()).doesNotContain(key.substring(1));
      }
      assertProblem(follow(link), ApiError.SLOW_DOWN);
      assertProblem(asked("GET /api/books/{b}", book, cookie), ApiError.SLOW_DOWN);
      assertThat(get("/api/books").statusCode()).as("this machine is not slowed").isEqualTo(200);
    } finally {
      root.removeHandler(handler);
    }
    assertThat(logged).noneMatch(line -> line.contains(key));
  }

  private static Handler listening(List<String> logged) {
    Handler handler =
        new Handler() {
          @Override
          public void publish(LogRecord line) {
            logged.add(line.getMessage() + " " + line.getThrown());
          }

          @Override
          public void flush() {}

          @Override
          public void close() {}
        };
    handler.setLevel(Level.ALL);
    return handler;
  }

  @Test
  void whoWasSlowedMayTryAgainAfterAMinute() {
    List<Instant> now = new ArrayList<>(List.of(Instant.parse("2026-05-20T18:00:00Z")));
    Guests guests = new Guests(List.of(), () -> now.get(0));
    String key = guests.open("b", Role.PHONE);
    for (int i = 0; i < 5; i++) {
      assertThat(guests.look("no", "10.0.0.7")).isInstanceOf(Seen.Wrong.class);
    }
    assertThat(guests.look(key, "10.0.0.7")).isEqualTo(new Seen.Slowed(61));
    assertThat(guests.look(key, "10.0.0.8")).isInstanceOf(Seen.Known.class);
    now.set(0, now.get(0).plus(Duration.ofSeconds(59)));
    assertThat(guests.look(key, "10.0.0.7")).isInstanceOf(Seen.Slowed.class);
    now.set(0, now.get(0).plus(Duration.ofSeconds(1)));
    assertThat(guests.look(key, "10.0.0.7")).isInstanceOf(Seen.Known.class);
  }

  @Test
  void aServiceThatIsNotSharedListensOnLoopbackOnly() throws Exception {
    try (WebServer alone =
        WebServer.start(library, worker, new org.barmap.work.Events(), folder, 0)) {
      assertThatThrownBy(() -> new Socket("127.0.0.2", alone.port()).close())
          .isInstanceOf(ConnectException.class);
      URI book =
          URI.create("http://127.0.0.1:" + alone.port() + "/api/books/" + newBook() + "/share");
      HttpResponse<String> refused =
          send(
              HttpRequest.newBuilder(book)
                  .POST(HttpRequest.BodyPublishers.ofString("{\"as\":\"phone\"}")));
      assertProblem(refused, ApiError.REFUSED);
    }
  }

  /** What is drawn is read again by the library's reader, from the picture's own squares. */
  @Test
  void theCodeSaysTheAddress() throws Exception {
    String book = newBook();
    String path = "/api/books/" + book + "/share";
    assertProblem(get(path + "/phone"), ApiError.NOT_FOUND);
    String link = link(book, "phone");
    HttpResponse<String> drawn = get(path + "/phone");
    assertThat(drawn.headers().firstValue("Content-Type").orElse("")).startsWith("image/svg+xml");
    assertThat(drawn.headers().firstValue("Cache-Control")).contains("no-store");
    Matcher size = Pattern.compile("viewBox=\"0 0 (\\d+)").matcher(drawn.body());
    assertThat(size.find()).isTrue();
    int side = Integer.parseInt(size.group(1));
    BufferedImage image = new BufferedImage(4 * side, 4 * side, BufferedImage.TYPE_BYTE_GRAY);
    Graphics2D g = image.createGraphics();
    g.setColor(Color.WHITE);
    g.fillRect(0, 0, 4 * side, 4 * side);
    g.setColor(Color.BLACK);
    Pattern square = Pattern.compile("M(\\d+) (\\d+)h1v1h-1z");
    square
        .matcher(drawn.body())
        .results()
        .forEach(
            m ->
                g.fillRect(
                    4 * Integer.parseInt(m.group(1)), 4 * Integer.parseInt(m.group(2)), 4, 4));
    g.dispose();
    int[] pixels = image.getRGB(0, 0, 4 * side, 4 * side, new int[16 * side * side], 0, 4 * side);
    var bitmap =
        new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(4 * side, 4 * side, pixels)));
    assertThat(new QRCodeReader().decode(bitmap).getText()).isEqualTo(link);
  }
}
