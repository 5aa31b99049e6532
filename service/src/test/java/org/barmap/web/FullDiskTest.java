package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.barmap.ShortLived;
import org.barmap.library.Library;
import org.barmap.library.Stores;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.barmap.work.Events;
import org.barmap.work.StandInReader;
import org.barmap.work.Worker;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;

/**
 * A service whose files can't grow, and whose folder can't be written to: a process of its own,
 * whose limit on the size of files ({@code prlimit} of util-linux) stands for a full disk. It has
 * no right of root's to write where permissions forbid it.
 */
class FullDiskTest {

  @TempDir private Path folder;

  private final HttpClient http = HttpClient.newHttpClient();
  private Process process;
  private int port;
  private String key = "";

  @SuppressWarnings("NullAway.Init") // before each test
  FullDiskTest() {}

  /** The service as a program of its own. */
  static final class Serves {
    private Serves() {}

    public static void main(String[] args) throws IOException {
      Path data = Path.of(args[0]);
      Clock clock = Clock.systemUTC();
      Library library =
          args[1].isEmpty()
              ? SqliteLibrary.open(data, clock)
              : PostgresLibrary.open(DatabaseAddress.of(args[1], Optional.empty()), data, clock);
      Events events = new Events();
      Worker worker = new Worker(library, new StandInReader(), events);
      worker.start();
      WebServer server = WebServer.start(library, worker, events, data, 0);
      System.out.println(server.port());
      System.out.println(server.key());
    }
  }

  private Path data() {
    return folder.resolve("data");
  }

  private void start(Stores store) throws IOException {
    String rights = "-dac_override,-dac_read_search";
    List<String> command = new ArrayList<>();
    if (System.getProperty("user.name", "").equals("root")) {
      command.addAll(List.of("setpriv", "--bounding-set", rights, "--inh-caps", rights));
    }
    command.addAll(ShortLived.java("-cp", System.getProperty("java.class.path")));
    String database = store == Stores.POSTGRES ? Stores.postgres(data()) : "";
    command.addAll(List.of(Serves.class.getName(), data().toString(), database));
    try {
      process =
          new ProcessBuilder(command).redirectError(folder.resolve("errors").toFile()).start();
      BufferedReader out = process.inputReader(StandardCharsets.UTF_8);
      port = Integer.parseInt(String.valueOf(out.readLine()));
      key = String.valueOf(out.readLine());
    } catch (IOException e) {
      process = Assumptions.abort("no setpriv here");
    }
  }

  @AfterEach
  void end() {
    process.destroyForcibly();
    process.onExit().join();
  }

  /** Sets the largest size a file may get; {@code unlimited} for none. */
  private void limit(String bytes) throws IOException, InterruptedException {
    try {
      Process set =
          new ProcessBuilder(
                  "prlimit", "--pid", "" + process.pid(), "--fsize=" + bytes + ":unlimited")
              .inheritIO()
              .start();
      assumeTrue(set.waitFor() == 0, "prlimit can't set a limit here");
    } catch (IOException e) {
      assumeTrue(false, "no prlimit here");
    }
  }

  private HttpResponse<String> send(String method, String path, byte[] body, String... headers)
      throws IOException, InterruptedException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
            .header("Authorization", "Bearer " + key)
            .method(method, HttpRequest.BodyPublishers.ofByteArray(body));
    for (int i = 0; i < headers.length; i += 2) {
      request.header(headers[i], headers[i + 1]);
    }
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private JsonNode get(String path) throws IOException, InterruptedException {
    return BarMapJson.mapper().readTree(send("GET", path, new byte[0]).body());
  }

  private HttpResponse<String> upload(String book, byte[] picture)
      throws IOException, InterruptedException {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    String head =
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"p.png\"\r\n\r\n";
    body.writeBytes(head.getBytes(StandardCharsets.UTF_8));
    body.writeBytes(picture);
    body.writeBytes("\r\n--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    return send(
        "POST",
        "/api/books/" + book + "/pages",
        body.toByteArray(),
        "Content-Type",
        "multipart/form-data; boundary=xx");
  }

  /** A picture with as many bytes behind it as are asked for. */
  private static byte[] picture(int bytes) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(RunningServer.png());
    out.writeBytes(new byte[bytes]);
    return out.toByteArray();
  }

  private HttpResponse<String> change(String book, long revision, String note)
      throws IOException, InterruptedException {
    String body =
        "{\"changes\":[{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"%s\"}]}"
            .formatted(note);
    return send(
        "POST",
        "/api/books/" + book + "/changes",
        body.getBytes(StandardCharsets.UTF_8),
        "If-Match",
        "\"" + revision + "\"");
  }

  private static void assertStorage(HttpResponse<String> response) {
    assertThat(response.body()).contains("\"code\":\"" + ApiError.STORAGE.name() + "\"");
    assertThat(response.statusCode()).isEqualTo(507);
    assertThat(response.body()).doesNotContain("Exception").doesNotContain("SQLITE");
  }

  private List<Path> files(String below) throws IOException {
    try (Stream<Path> all = Files.walk(folder.resolve("data").resolve(below))) {
      return all.filter(Files::isRegularFile).toList();
    }
  }

  private void read(String book, int pages) {
    await()
        .atMost(Duration.ofSeconds(60))
        .until(
            () -> {
              JsonNode shown = get("/api/books/" + book);
              return shown.path("pageCount").asInt() == pages
                  && shown.path("bars").asInt() == 6 * pages
                  && shown.path("job").isMissingNode();
            });
  }

  private String bookOfOnePage() throws Exception {
    String book =
        BarMapJson.mapper()
            .readTree(
                send(
                        "POST",
                        "/api/books",
                        "{\"title\":\"S\",\"part\":\"B\"}".getBytes(StandardCharsets.UTF_8))
                    .body())
            .path("id")
            .asString();
    assertThat(upload(book, picture(10)).statusCode()).isEqualTo(202);
    read(book, 1);
    return book;
  }

  @ParameterizedTest
  @EnumSource(Stores.class)
  void aFullDiskIsSaidNothingIsHalfWrittenAndItGoesOnByItself(Stores store) throws Exception {
    start(store);
    String book = bookOfOnePage();
    List<Path> before = files("books");
    List<Path> copies = files("cache");
    limit("40000");
    for (int i = 0; i < 3; i++) {
      assertStorage(upload(book, picture(300_000)));
    }
    assertStorage(upload(book, picture(50_000)));
    assertThat(files("books")).isEqualTo(before);
    assertThat(files("cache")).isEqualTo(copies);
    // a database is on another disk
    int kept = store == Stores.SQLITE ? changesUntilFull(book) : 0;
    assertThat(get("/api/books/" + book + "/changes").path("changes")).hasSize(kept);
    limit("unlimited");
    assertThat(change(book, kept, "again").statusCode()).isEqualTo(201);
    assertThat(upload(book, picture(300_000)).statusCode()).isEqualTo(202);
    read(book, 2);
    int last = kept + 1;
    end();
    try (Library library = store.open(data(), Clock.systemUTC())) {
      assertThat(library.changes().find(book).orElseThrow().value()).hasSize(last);
      assertThat(library.keeping().notices()).isEmpty();
      assertThat(library.keeping().kept().missing()).isEmpty();
    }
  }

  private int changesUntilFull(String book) throws Exception {
    int kept = 0;
    HttpResponse<String> answer = change(book, 0, "note");
    while (answer.statusCode() == 201 && kept < 500) {
      kept++;
      answer = change(book, kept, "note ".repeat(20) + kept);
    }
    assertStorage(answer);
    assertThat(kept).as("some were kept, then there was no room").isBetween(0, 499);
    return kept;
  }

  @Test
  void aFolderThatCannotBeWrittenToIsSaidAndUsedAgainWhenItCan() throws Exception {
    start(Stores.SQLITE);
    String book = bookOfOnePage();
    Path pictures = folder.resolve("data/books").resolve(book);
    Files.setPosixFilePermissions(pictures, PosixFilePermissions.fromString("r-x------"));
    assertStorage(upload(book, picture(300_000)));
    assertThat(get("/api/books/" + book).path("pageCount").asInt()).isEqualTo(1);
    assertThat(change(book, 0, "still written").statusCode()).isEqualTo(201);
    Files.setPosixFilePermissions(pictures, PosixFilePermissions.fromString("rwx------"));
    assertThat(upload(book, picture(300_000)).statusCode()).isEqualTo(202);
    read(book, 2);
    assertThat(files("books")).hasSize(2);
  }
}
