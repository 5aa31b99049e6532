package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.barmap.library.Library;
import org.barmap.library.Stores;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.access.Places;
import org.barmap.web.api.ApiError;
import org.barmap.web.contract.CheckedClient;
import org.barmap.work.BlankPage;
import org.barmap.work.Events;
import org.barmap.work.StandInReader;
import org.barmap.work.Worker;
import org.barmap.work.engine.EngineJobs;
import org.barmap.work.hook.NetRules;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;

/** A service over real HTTP with a real library, one for each test. */
public abstract class RunningServer {

  @TempDir protected Path folder;

  /** Fails where an answer is not as {@code openapi.yaml} describes it. */
  protected final HttpClient http = new CheckedClient(HttpClient.newHttpClient(), !isOdd());

  protected Library library;
  protected Events events;
  protected Worker worker;
  protected WebServer server;

  @BeforeEach
  protected void start() throws IOException {
    library = opened();
    events = new Events(library.signals());
    worker = new Worker(library, new StandInReader(), events);
    worker.start();
    server = WebServer.start(library, worker, events, folder, 0, places());
  }

  /** Tells whether requests are odd on purpose, so that only answers are as described. */
  protected boolean isOdd() {
    return false;
  }

  /** Opens the store it is on; on the shared one with {@code -Dbarmap.store=POSTGRES}. */
  protected Library opened() throws IOException {
    return Stores.valueOf(System.getProperty("barmap.store", "SQLITE"))
        .open(folder, Clock.systemUTC());
  }

  /** Starts it anew so that web hooks may lead to this machine and its net. */
  protected void allowMyNet() throws IOException {
    server.close();
    server =
        WebServer.start(
            library,
            worker,
            events,
            folder,
            0,
            places(),
            new NetRules(true),
            EngineJobs.none(library, worker, events));
  }

  protected Places places() throws IOException {
    return Places.sharedAt(shareAt());
  }

  /** Where it listens besides the loopback address. */
  protected List<InetAddress> shareAt() throws IOException {
    return List.of();
  }

  @AfterEach
  protected void stop() {
    server.close();
    worker.close();
    library.close();
  }

  /** A request of the owner. */
  protected HttpRequest.Builder to(String path) {
    return withoutKey(path).header("Authorization", "Bearer " + server.key());
  }

  protected HttpRequest.Builder withoutKey(String path) {
    return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + server.port() + path));
  }

  /** The owner's key as a line of a request that is written by hand. */
  protected String keyLine() {
    return "Authorization: Bearer " + server.key() + "\r\n";
  }

  protected HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  protected HttpResponse<String> get(String path) throws Exception {
    return send(to(path));
  }

  protected HttpResponse<String> put(String path, String body) throws Exception {
    return send(to(path).PUT(HttpRequest.BodyPublishers.ofString(body)));
  }

  protected HttpResponse<String> post(String path, String body) throws Exception {
    return send(to(path).POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  protected HttpResponse<String> post(String path, String body, long revision) throws Exception {
    return changing("POST", path, body, revision);
  }

  protected HttpResponse<String> put(String path, String body, long revision) throws Exception {
    return changing("PUT", path, body, revision);
  }

  private HttpResponse<String> changing(String method, String path, String body, long revision)
      throws Exception {
    return send(
        to(path)
            .header("If-Match", "\"" + revision + "\"")
            .method(method, HttpRequest.BodyPublishers.ofString(body)));
  }

  /** Gives a book another title; returns the revision after it. */
  protected long rename(String book) throws Exception {
    String path = "/api/books/" + book;
    long revision = json(get(path)).path("revision").asLong();
    changing("PATCH", path, "{\"title\":\"T\"}", revision);
    return revision + 1;
  }

  protected static JsonNode json(HttpResponse<String> response) {
    return BarMapJson.mapper().readTree(response.body());
  }

  protected static void assertProblem(HttpResponse<String> response, ApiError error) {
    assertThat(response.body()).contains("\"code\":\"" + error.name() + "\"");
    assertThat(response.statusCode()).isEqualTo(error.status());
    assertThat(response.headers().firstValue("Content-Type").orElse(""))
        .startsWith("application/problem+json");
    assertThat(response.body()).doesNotContain("\tat ").doesNotContain("Exception");
  }

  protected String newBook() throws Exception {
    HttpResponse<String> made = post("/api/books", "{\"title\":\"Saltmarsh\",\"part\":\"Bass\"}");
    assertThat(made.statusCode()).isEqualTo(201);
    return json(made).path("id").asString();
  }

  protected static byte[] png() {
    return BlankPage.png();
  }

  protected HttpResponse<String> upload(String book, Object... namesAndBytes) throws Exception {
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

  protected String readBook() throws Exception {
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
}
