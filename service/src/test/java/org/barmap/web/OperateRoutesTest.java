package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Duration;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.barmap.library.PageCard;
import org.junit.jupiter.api.Test;

/** Whether the service says how it is, how fast it is, and nothing of what it keeps. */
class OperateRoutesTest extends RunningServer {

  /**
   * A sample of the text format 0.0.4 of Prometheus ("Exposition formats" of its documentation):
   * the name, labels in braces whose values have backslash, quote and line feed escaped, the value.
   */
  private static final Pattern SAMPLE =
      Pattern.compile(
          "([a-zA-Z_:][a-zA-Z0-9_:]*)"
              + "(\\{(?:[a-zA-Z_][a-zA-Z0-9_]*=\"(?:[^\"\\\\\\n]|\\\\[\\\\\"n])*\",?)*\\})?"
              + " (NaN|[+-]Inf|[-+0-9.eE]+)");

  private Map<String, Double> metrics() throws Exception {
    HttpResponse<String> answer =
        send(withoutKey("/metrics").header("Authorization", "Bearer " + server.keys().metrics()));
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.headers().firstValue("Content-Type"))
        .hasValueSatisfying(t -> assertThat(t).startsWith("text/plain; version=0.0.4"));
    Map<String, Double> found = new HashMap<>();
    for (String line : answer.body().split("\n")) {
      if (!line.startsWith("#")) {
        Matcher sample = SAMPLE.matcher(line);
        assertThat(sample.matches()).as(line).isTrue();
        String labels = sample.group(2) == null ? "" : sample.group(2);
        found.put(sample.group(1) + labels, Double.valueOf(sample.group(3)));
      }
    }
    return found;
  }

  private int status(String path) throws Exception {
    return send(withoutKey(path)).statusCode();
  }

  @Test
  void whatWasDoneIsCountedByRouteAndNamesNoBook() throws Exception {
    String book = readBook();
    get("/api/books/" + book + "/map");
    get("/api/books/" + book + "/map");
    get("/api/books/" + book + "x/map");
    get("/nowhere/" + book);
    String shelf =
        "barmap_requests_seconds_count{method=\"GET\",route=\"/api/books/{b}/map\",status=\"%s\"}";
    await()
        .atMost(Duration.ofSeconds(10))
        .untilAsserted(
            () ->
                assertThat(metrics())
                    .containsEntry(shelf.formatted("200"), 2.0)
                    .containsEntry(shelf.formatted("404"), 1.0)
                    .containsKey(
                        "barmap_requests_seconds_count{method=\"GET\",route=\"none\",status=\"404\"}"));
    Map<String, Double> now = metrics();
    assertThat(now)
        .containsEntry("barmap_reading_pages_seconds_count", 2.0)
        .containsEntry("barmap_reading_jobs{state=\"waiting\"}", 0.0)
        .containsEntry("barmap_reading_jobs{state=\"running\"}", 0.0)
        .containsEntry("barmap_live_listeners", 0.0)
        .containsKey("barmap_store_connections{state=\"most\"}")
        .containsKey(
            "jvm_memory_used_bytes{area=\"heap\",id=\"Metaspace\"}".replace("heap", "nonheap"));
    String page = library.pages().all(book).get(0).id();
    assertThat(now.keySet())
        .noneMatch(k -> k.contains(book) || k.contains(page) || k.contains("Saltmarsh"));
  }

  @Test
  void theKeyOfTheFiguresOpensNothingElse() throws Exception {
    String key = server.keys().metrics();
    assertThat(key).isNotEqualTo(server.key());
    for (String route : server.everyRoute()) {
      String[] parts = route.split(" ");
      String path = parts[1].replaceAll("\\{\\w+}", "c1");
      if (!List.of("/health/live", "/health/ready", "/open", "/metrics", "/sw.js", "/site.json")
              .contains(path)
          && !path.matches("/|/docs.*|/openapi\\.json|/schemas/.*")) {
        int status =
            send(withoutKey(path)
                    .header("Authorization", "Bearer " + key)
                    .method(parts[0], HttpRequest.BodyPublishers.ofString("{}")))
                .statusCode();
        assertThat(status).as(route).isEqualTo(403);
      }
    }
    assertThat(status("/metrics")).isEqualTo(401);
  }

  /** An upload whose last bytes come only after the service was told to end is kept. */
  @Test
  void aRequestAtHandIsAnsweredBeforeTheServiceEnds() throws Exception {
    String book = newBook();
    String head =
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"p.png\"\r\n\r\n";
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.writeBytes(head.getBytes(StandardCharsets.UTF_8));
    body.writeBytes(png());
    body.writeBytes(new byte[400_000]);
    body.writeBytes("\r\n--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    byte[] bytes = body.toByteArray();
    try (Socket socket = new Socket("127.0.0.1", server.port())) {
      OutputStream out = socket.getOutputStream();
      out.write(
          ("POST /api/books/%s/pages HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sContent-Type:"
                  + " multipart/form-data; boundary=xx\r\nContent-Length: %d\r\n\r\n")
              .formatted(book, server.port(), keyLine(), bytes.length)
              .getBytes(StandardCharsets.UTF_8));
      out.write(bytes, 0, bytes.length - 10);
      out.flush();
      await()
          .atMost(Duration.ofSeconds(10))
          .until(() -> Arrays.stream(folder.resolve("cache").toFile().list()).count() > 0);
      Thread closing = new Thread(server::close);
      closing.start();
      await().until(() -> closing.getState() == Thread.State.TIMED_WAITING);
      out.write(bytes, bytes.length - 10, 10);
      out.flush();
      String answer =
          new BufferedReader(new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8))
              .readLine();
      assertThat(answer).isEqualTo("HTTP/1.1 202 Accepted");
      closing.join();
    }
  }

  @Test
  void itIsReadyWhenEveryPartIs() throws Exception {
    assertThat(status("/health/live")).isEqualTo(200);
    assertThat(send(withoutKey("/health/ready")).body())
        .isEqualTo("{\"status\":\"up\",\"failing\":[]}");
    Path pictures = folder.resolve("books");
    Files.move(pictures, folder.resolve("elsewhere"));
    HttpResponse<String> without = send(withoutKey("/health/ready"));
    assertThat(without.statusCode()).isEqualTo(503);
    assertThat(without.body()).isEqualTo("{\"status\":\"down\",\"failing\":[\"pictures\"]}");
    Files.move(folder.resolve("elsewhere"), pictures);
    worker.close();
    assertThat(send(withoutKey("/health/ready")).body()).contains("[\"reading\"]");
    library.close();
    assertThat(send(withoutKey("/health/ready")).body()).contains("\"reading\",\"store\"");
    assertThat(status("/health/live")).as("alive all the same").isEqualTo(200);
  }

  /** Asks for a smaller picture, and tells which file it was then: one made anew is another. */
  private Object file(String book, PageCard page, Path small) {
    try {
      worker.copies().jpeg(book, page, 500).orElseThrow().close();
      return Objects.requireNonNull(
          Files.readAttributes(small, BasicFileAttributes.class).fileKey());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Everybody opens the same page at the same moment. */
  @Test
  void aSmallerPictureIsMadeOnce() throws Exception {
    String book = readBook();
    PageCard page = library.pages().all(book).get(0);
    Path small = folder.resolve("cache").resolve(page.id() + "-500.jpg");
    List<CompletableFuture<Object>> files =
        IntStream.range(0, 24)
            .mapToObj(i -> CompletableFuture.supplyAsync(() -> file(book, page, small)))
            .toList();
    assertThat(files.stream().map(CompletableFuture::join).distinct()).hasSize(1);
  }
}
