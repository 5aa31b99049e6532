package org.barmap.browser;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/** Another way into the same service: what a second player, or a check, sees of it. */
public final class Api {

  private final HttpClient client = HttpClient.newHttpClient();
  private final String base;
  private final String key;

  public Api(RunningService service) {
    base = service.base();
    key = service.key();
  }

  /** Returns what an address sets as its cookie, name and value. */
  String[] cookie(String address) {
    HttpResponse<String> entered = send(HttpRequest.newBuilder(URI.create(address)).build());
    return entered.headers().firstValue("Set-Cookie").orElseThrow().split("[=;]");
  }

  public JsonNode get(String path) {
    return json(send(request(path).GET().build()));
  }

  /** Returns the revision of a thing, quotes and all, as If-Match wants it. */
  public String revision(String path) {
    return send(request(path).GET().build()).headers().firstValue("ETag").orElseThrow();
  }

  public JsonNode post(String path, Map<String, ?> body) {
    return json(send(request(path).POST(text(body)).build()));
  }

  public JsonNode post(String path, Map<String, ?> body, String revision) {
    return json(send(request(path).header("If-Match", revision).POST(text(body)).build()));
  }

  void delete(String path) {
    send(request(path).DELETE().build());
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(base + path))
        .header("Authorization", "Bearer " + key)
        .header("Content-Type", "application/json");
  }

  private static HttpRequest.BodyPublisher text(Map<String, ?> body) {
    return HttpRequest.BodyPublishers.ofString(
        BarMapJson.mapper().writeValueAsString(body), StandardCharsets.UTF_8);
  }

  private static JsonNode json(HttpResponse<String> response) {
    if (response.statusCode() >= 400) {
      throw new AssertionError(
          response.uri() + " answered " + response.statusCode() + ": " + response.body());
    }
    return BarMapJson.mapper().readTree(response.body());
  }

  private HttpResponse<String> send(HttpRequest request) {
    try {
      return client.send(request, HttpResponse.BodyHandlers.ofString(StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new AssertionError("interrupted", e);
    }
  }
}
