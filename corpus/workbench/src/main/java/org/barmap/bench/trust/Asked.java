package org.barmap.bench.trust;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/** Asks a service, as its owner. */
final class Asked {

  private static final Duration PATIENCE = Duration.ofSeconds(300);
  private static final String BOUNDARY = "barmap-bench-part";

  private final HttpClient http =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  private final String base;
  private final String key;

  Asked(int port, String key) {
    this.base = "http://127.0.0.1:" + port;
    this.key = key;
  }

  /** An answer. */
  record Answer(int status, byte[] bytes, long revision) {

    boolean isDone() {
      return status < 300;
    }

    JsonNode json() {
      return BarMapJson.mapper().readTree(bytes);
    }

    /** Tells whether the service says that it ends: whoever asked is to ask the next one. */
    boolean isOfTheEnd() {
      return status == 503 && text().contains("The service is being ended");
    }

    String text() {
      return new String(bytes, StandardCharsets.UTF_8);
    }
  }

  /** A file to be uploaded. */
  record Sent(String name, byte[] bytes) {}

  HttpClient client() {
    return http;
  }

  HttpRequest.Builder to(String path) {
    return HttpRequest.newBuilder(URI.create(base + path))
        .timeout(PATIENCE)
        .header("Authorization", "Bearer " + key);
  }

  Answer get(String path) throws IOException {
    return send(to(path).GET());
  }

  Answer post(String path, String body) throws IOException {
    return send(to(path).POST(BodyPublishers.ofString(body)));
  }

  /** Changes what is of a revision. */
  Answer change(String method, String path, long revision, String body) throws IOException {
    return send(
        to(path)
            .header("If-Match", "\"" + revision + "\"")
            .method(method, BodyPublishers.ofString(body)));
  }

  Answer upload(String path, List<Sent> files) throws IOException {
    return upload(to(path), files);
  }

  /** Uploads files, with what a request has besides them. */
  Answer upload(HttpRequest.Builder request, List<Sent> files) throws IOException {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (Sent file : files) {
      String head =
          "--%s\r\nContent-Disposition: form-data; name=\"files\"; filename=\"%s\"\r\n\r\n"
              .formatted(BOUNDARY, file.name());
      body.writeBytes(head.getBytes(StandardCharsets.UTF_8));
      body.writeBytes(file.bytes());
      body.writeBytes("\r\n".getBytes(StandardCharsets.UTF_8));
    }
    body.writeBytes(("--" + BOUNDARY + "--\r\n").getBytes(StandardCharsets.UTF_8));
    return send(
        request
            .header("Content-Type", "multipart/form-data; boundary=" + BOUNDARY)
            .POST(BodyPublishers.ofByteArray(body.toByteArray())));
  }

  /**
   * Sends a request.
   *
   * @throws IOException when there was no answer, or only that the service ends
   */
  Answer send(HttpRequest.Builder request) throws IOException {
    try {
      HttpResponse<byte[]> answer =
          http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
      long revision =
          answer
              .headers()
              .firstValue("ETag")
              .map(e -> e.replaceAll("\\D", ""))
              .filter(e -> !e.isEmpty() && e.length() < 18)
              .map(Long::valueOf)
              .orElse(-1L);
      Answer whole = new Answer(answer.statusCode(), answer.body(), revision);
      if (whole.isOfTheEnd()) {
        throw new IOException(whole.text());
      }
      return whole;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }
}
