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
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.logging.Handler;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.barmap.web.access.Invite;
import org.barmap.web.access.PictureLog;
import org.barmap.web.access.Role;
import org.barmap.web.access.Who;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * A book opened to others of the local net, each with a link that ends. Who may ask what is in
 * {@link AccessTableTest}. A second address of the loopback net stands for the local net: it is
 * another address than the one this machine's own requests come to, which is what the guard goes
 * by.
 */
class ShareRoutesTest extends RunningServer {

  private static final LocalDate TODAY = LocalDate.now(ZoneId.systemDefault());

  @Override
  protected List<InetAddress> shareAt() throws IOException {
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

  /** Lets somebody in and returns the link, which is the newest one. */
  private String link(String book, String as) throws Exception {
    return made(book, "{\"as\":\"" + as + "\"}").path("links").path(0).asString();
  }

  private JsonNode made(String book, String invite) throws Exception {
    HttpResponse<String> answer = post("/api/books/" + book + "/share", invite);
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(201);
    JsonNode open = json(answer).path("open");
    return open.path(open.size() - 1);
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
    assertThat(cookie).contains("; HttpOnly").contains("; SameSite=Strict").contains("; Max-Age=");
    return cookie.substring(0, cookie.indexOf(';'));
  }

  @Test
  void whoHasSeveralKeysAsksWithTheOneThatMayDoMost() throws Exception {
    String book = newBook();
    String owner = cookie(book, "owner");
    String reader = cookie(book, "reader");
    for (String both : List.of(owner + "; " + reader, reader + "; " + owner)) {
      JsonNode align = json(asked("GET /api/books/{b}/align", book, both));
      assertThat(align.path("may").asString()).isEqualTo("name");
    }
  }

  @Test
  void aPhoneBringsPagesAndBeginsAtItsOwnPage() throws Exception {
    String book = newBook();
    String cookie = cookie(book, "phone");
    assertThat(asked("GET /phone.html", book, cookie).statusCode()).isEqualTo(200);
    assertThat(asked("GET /desk.html", book, cookie).statusCode()).isEqualTo(403);
    assertThat(asked("GET /js/../site.json", book, cookie).statusCode()).isNotEqualTo(200);
    assertThat(asked("GET /", book, cookie).headers().firstValue("Location"))
        .contains("/phone.html?b=" + book);
    assertThat(taken(book, cookie).statusCode()).isEqualTo(202);
    HttpResponse<String> led = follow(link(book, "phone"));
    String on = led.headers().firstValue("Location").orElseThrow();
    assertThat(asked("GET " + on, book, "").body()).contains("url=/phone.html?b=" + book);
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

  /** Of two books one browser keeps two keys. */
  @Test
  void aBrowserThatWasLetInToTwoBooksOpensBoth() throws Exception {
    String one = newBook();
    String two = newBook();
    String cookies = cookie(one, "reader") + "; " + cookie(two, "corrector");
    assertThat(asked("GET /api/books/{b}", one, cookies).statusCode()).isEqualTo(200);
    assertThat(asked("GET /api/books/{b}", two, cookies).statusCode()).isEqualTo(200);
    assertProblem(asked("POST /api/books/{b}/undo", one, cookies), ApiError.NOT_YOURS);
    assertProblem(asked("POST /api/books/{b}/undo", two, cookies), ApiError.NEEDS_REVISION);
  }

  @Test
  void oneLinkIsEndedAndTheOthersGoOn() throws Exception {
    String book = newBook();
    String path = "/api/books/" + book + "/share";
    JsonNode anna = made(book, "{\"as\":\"reader\",\"name\":\"Anna\",\"last\":\"" + TODAY + "\"}");
    assertThat(anna.path("name").asString()).isEqualTo("Anna");
    assertThat(anna.path("last").asString()).isEqualTo(TODAY.toString());
    String tom = cookie(book, "corrector");
    String link = anna.path("links").path(0).asString();
    assertThat(follow(link).statusCode()).isEqualTo(302);
    HttpResponse<String> ended = send(to(path + "/" + anna.path("id").asString()).DELETE());
    assertThat(json(ended).path("open").size()).isEqualTo(1);
    assertProblem(follow(link), ApiError.ENDED);
    assertThat(asked("GET /api/books/{b}", book, tom).statusCode()).isEqualTo(200);
    assertProblem(send(to(path + "/nobody").DELETE()), ApiError.NOT_FOUND);
    assertProblem(post(path, "{\"as\":\"king\"}"), ApiError.BAD_REQUEST);
    assertProblem(post(path, "{\"as\":\"reader\",\"last\":\"soon\"}"), ApiError.BAD_REQUEST);
    for (LocalDate day : List.of(TODAY.minusDays(1), TODAY.plusDays(400))) {
      assertProblem(post(path, "{\"as\":\"reader\",\"last\":\"" + day + "\"}"), ApiError.REFUSED);
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
    assertProblem(after, ApiError.ENDED);
    assertThat(follow(link).statusCode()).isEqualTo(401);
    assertThat(link(book, "phone")).as("another key the next time").isNotEqualTo(link);
  }

  @Test
  void wrongKeysAreSlowedAndNoLogHasAKey() throws Exception {
    List<String> logged = new ArrayList<>();
    Handler handler = listening(logged);
    Logger root = Logger.getLogger("");
    root.addHandler(handler);
    String book = newBook();
    String link = link(book, "corrector");
    String key = link.substring(link.indexOf('=') + 1);
    assertThat(key).hasSizeGreaterThanOrEqualTo(27);
    try {
      String cookie = cookie(book, "corrector");
      raw("127.0.0.2", "127.0.0.2", "%ZZ/../" + key, cookie);
      raw("127.0.0.2", "no host of ours", book + "?key=" + key, cookie);
      asked("POST /open?key=" + key, book, cookie);
      String bad = link.replace(key, key.substring(1) + "x");
      for (int i = 0; i < 5; i++) {
        HttpResponse<String> wrong = follow(bad);
        assertProblem(wrong, ApiError.NEEDS_KEY);
        assertThat(wrong.body()).doesNotContain(key.substring(1));
      }
      assertProblem(follow(link), ApiError.SLOW_DOWN);
      String wrong = cookie.substring(0, cookie.length() - 3);
      assertProblem(asked("GET /api/books/{b}", book, wrong), ApiError.SLOW_DOWN);
      assertProblem(
          send(withoutKey("/api/books").header("Authorization", "Bearer " + key.substring(1))),
          ApiError.SLOW_DOWN);
      // who is in stays in: nobody is shut out by a neighbour at the same address
      assertThat(asked("GET /api/books/{b}", book, cookie).statusCode()).isEqualTo(200);
      assertThat(get("/api/books").statusCode()).isEqualTo(200);
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
                  .header("Authorization", "Bearer " + alone.key())
                  .POST(HttpRequest.BodyPublishers.ofString("{\"as\":\"phone\"}")));
      assertProblem(refused, ApiError.REFUSED);
    }
  }

  @Test
  void whoWasGivenPicturesIsToldToTheOwner() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    String page = json(get(path)).path("pages").path(1).path("id").asString();
    String key =
        made(book, "{\"as\":\"reader\",\"name\":\"Anna\"}").path("links").path(0).asString();
    String anna = "Bearer " + key.substring(key.indexOf('=') + 1);
    for (String asked : List.of("/image?width=300", "/image", "/image?width=no", "/nothing")) {
      send(withoutKey(path + "/pages/" + page + asked).header("Authorization", anna));
    }
    send(withoutKey(path + "/pages/" + page + "/image"));
    send(withoutKey(path + "/map").header("Authorization", anna));
    get(path + "/pack");
    get(path + "/pack?pictures=true");
    JsonNode looks = json(get(path + "/seen")).path("looks");
    assertThat(
            looks
                .valueStream()
                .map(
                    l ->
                        l.path("who").asString()
                            + " "
                            + l.path("page").asInt()
                            + " "
                            + l.path("what").asString()))
        .containsExactly("you 0 pack", "Anna 2 image");
    assertThat(looks.path(1).path("owner").asBoolean()).isFalse();
    assertThat(looks.path(1).path("at").asString())
        .startsWith(String.valueOf(java.time.Year.now(ZoneId.of("UTC"))));
    Path file = folder.resolve("looks").resolve(book + ".jsonl");
    assertThat(Files.readString(file)).contains("Anna").doesNotContain("127.0.0.1");
    send(to(path).DELETE());
    assertThat(file).exists();
    send(to("/api/bin/" + book).DELETE());
    assertThat(file).doesNotExist();
    assertThat(folder.resolve("access.json")).content().doesNotContain("Anna");
  }

  /** Old looks make room, the owner's own never push out a guest's, and the file stays small. */
  @Test
  void theListOfLooksIsBounded() throws Exception {
    List<Instant> now = new ArrayList<>(List.of(Instant.parse("2026-05-20T18:00:00Z")));
    PictureLog log = new PictureLog(folder, () -> now.get(0));
    Who owner = new Who.Owner();
    Invite invite = new Invite("i", "k", "b", Role.READER, "Anna", now.get(0), now.get(0));
    for (int i = 0; i < 1_300; i++) {
      log.add("b", new Who.Invited(invite), "p" + i, "image");
      log.add("b", owner, "p" + i, "image");
      log.add("b", owner, "p" + i, "image");
      now.set(0, now.get(0).plusSeconds(1));
    }
    List<PictureLog.Look> again = new PictureLog(folder, () -> now.get(0)).of("b");
    assertThat(again).isEqualTo(log.of("b")).hasSizeBetween(600, 720);
    assertThat(again.stream().filter(look -> !look.owner()).count()).isBetween(500L, 600L);
    assertThat(again.get(again.size() - 1).page()).isEqualTo("p1299");
    now.set(0, now.get(0).plusSeconds(3_600));
    log.add("b", owner, "p1299", "image");
    assertThat(log.of("b")).hasSizeGreaterThanOrEqualTo(601);
    Files.writeString(
        folder.resolve("looks").resolve("b.jsonl"), "{\"at\":", StandardOpenOption.APPEND);
    assertThat(new PictureLog(folder, () -> now.get(0)).of("b")).hasSameSizeAs(log.of("b"));
  }

  /** What is drawn is read again by the library's reader, from the picture's own squares. */
  @Test
  void theCodeSaysTheAddress() throws Exception {
    String book = newBook();
    String path = "/api/books/" + book + "/share";
    assertProblem(get(path + "/phone"), ApiError.NOT_FOUND);
    JsonNode made = made(book, "{\"as\":\"phone\"}");
    String link = made.path("links").path(0).asString();
    HttpResponse<String> drawn = get(path + "/" + made.path("id").asString());
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
