package org.barmap.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.barmap.map.json.BarMapJson;
import tools.jackson.databind.JsonNode;

/**
 * One window of a Chromium without a screen, spoken to by the DevTools protocol itself: a driver in
 * between would be measured along.
 */
final class Chromium implements AutoCloseable {

  private static final List<Path> PLACES =
      List.of(
          Path.of("/usr/bin/chromium"),
          Path.of("/usr/bin/chromium-browser"),
          Path.of("/usr/bin/google-chrome"));

  private static final long PATIENCE_SECONDS = 60;

  private final Process process;
  private final Path profile;
  private final LinkedBlockingQueue<JsonNode> said = new LinkedBlockingQueue<>();
  private final WebSocket line;
  private int asked;

  private Chromium(Path program) throws IOException {
    profile = Files.createTempDirectory("barmap-chromium");
    process =
        new ProcessBuilder(
                program.toString(),
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--no-first-run",
                "--disable-background-networking",
                "--window-size=1440,900",
                "--remote-debugging-port=0",
                "--user-data-dir=" + profile,
                "about:blank")
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    line =
        HttpClient.newHttpClient()
            .newWebSocketBuilder()
            .buildAsync(URI.create(window(port())), new Ear())
            .join();
  }

  /** Opens one; empty where none is installed. */
  static Optional<Chromium> open() throws IOException {
    Optional<Path> program = PLACES.stream().filter(Files::isExecutable).findFirst();
    return program.isEmpty() ? Optional.empty() : Optional.of(new Chromium(program.get()));
  }

  /**
   * Returns what tells, as {@code window.first}, when the first of some elements was drawn,
   * milliseconds since the address was asked for.
   */
  static String firstDrawn(String selector) {
    return """
        window.first = new Promise((tell) => {
          const look = () => requestAnimationFrame(() =>
            document.querySelector("%s") ? requestAnimationFrame(() => tell(performance.now())) : look());
          look();
        });
        """
        .formatted(selector);
  }

  /** What is measured in a window. */
  interface Visit {
    void in(Chromium chromium) throws IOException;
  }

  /**
   * Measures in a window that is let in; where no Chromium is installed the figures say so.
   *
   * @param names of the figures
   * @param cookie that lets a browser in, name and value
   * @param address of the page
   * @param first runs in every page before its own scripts
   */
  static void visit(
      Map<String, Object> figures,
      List<String> names,
      String[] cookie,
      String address,
      String first,
      Visit visit)
      throws IOException {
    Optional<Chromium> found = open();
    if (found.isEmpty()) {
      names.forEach(name -> figures.put(name, "not measured: there is no Chromium"));
      return;
    }
    try (Chromium chromium = found.get()) {
      chromium.ask("Page.enable", Map.of());
      chromium.ask(
          "Network.setCookie", Map.of("url", address, "name", cookie[0], "value", cookie[1]));
      chromium.ask("Page.addScriptToEvaluateOnNewDocument", Map.of("source", first));
      visit.in(chromium);
    }
  }

  /** Puts what comes in parts together. */
  private final class Ear implements WebSocket.Listener {
    private final StringBuilder text = new StringBuilder();

    @Override
    public CompletionStage<?> onText(WebSocket socket, CharSequence part, boolean last) {
      text.append(part);
      if (last) {
        said.add(BarMapJson.mapper().readTree(text.toString()));
        text.setLength(0);
      }
      return WebSocket.Listener.super.onText(socket, part, last);
    }
  }

  /** The file is written when the port is open. */
  private int port() throws IOException {
    Path file = profile.resolve("DevToolsActivePort");
    long begun = System.nanoTime();
    while (!Files.exists(file) || Files.readAllLines(file).size() < 2) {
      if (System.nanoTime() - begun > TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS)) {
        throw new IOException("Chromium did not open");
      }
      pause();
    }
    return Integer.parseInt(Files.readAllLines(file).get(0));
  }

  /** Where the first window listens. */
  private static String window(int port) throws IOException {
    HttpRequest list =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/json/list")).build();
    try {
      String answer =
          HttpClient.newHttpClient().send(list, HttpResponse.BodyHandlers.ofString()).body();
      for (JsonNode one : BarMapJson.mapper().readTree(answer)) {
        if (one.path("type").asString("").equals("page")) {
          return one.path("webSocketDebuggerUrl").asString();
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    throw new IOException("Chromium has no window");
  }

  private static void pause() throws IOException {
    try {
      TimeUnit.MILLISECONDS.sleep(50);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  /** Asks for something and returns its answer. */
  JsonNode ask(String method, Map<String, ?> parameters) throws IOException {
    int id = ++asked;
    String text =
        BarMapJson.mapper()
            .writeValueAsString(Map.of("id", id, "method", method, "params", parameters));
    line.sendText(text, true).join();
    try {
      JsonNode answer = said.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
      while (answer != null && answer.path("id").asInt(0) != id) {
        answer = said.poll(PATIENCE_SECONDS, TimeUnit.SECONDS);
      }
      if (answer == null || answer.has("error")) {
        throw new IOException("Chromium answered " + method + " with " + answer);
      }
      return answer.path("result");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted", e);
    }
  }

  /** Runs a script in the page, waits for its promise and returns its number. */
  double number(String script) throws IOException {
    JsonNode answer =
        ask(
            "Runtime.evaluate",
            Map.of("expression", script, "awaitPromise", true, "returnByValue", true));
    if (answer.has("exceptionDetails")) {
      throw new IOException("the page failed: " + answer.path("exceptionDetails"));
    }
    return answer.path("result").path("value").asDouble(Double.NaN);
  }

  /** Returns how long the page has worked since it was opened: script, layout, all of it; ms. */
  double worked() throws IOException {
    for (JsonNode one : ask("Performance.getMetrics", Map.of()).path("metrics")) {
      if (one.path("name").asString("").equals("TaskDuration")) {
        return 1e3 * one.path("value").asDouble(Double.NaN);
      }
    }
    return Double.NaN;
  }

  @Override
  public void close() throws IOException {
    line.abort();
    process.descendants().forEach(ProcessHandle::destroy);
    process.destroy();
    try {
      process.onExit().orTimeout(PATIENCE_SECONDS, TimeUnit.SECONDS).join();
    } finally {
      remove();
    }
  }

  /** Some of its processes write to the very end. */
  private void remove() throws IOException {
    long begun = System.nanoTime();
    while (Files.exists(profile) && System.nanoTime() - begun < Duration.ofSeconds(5).toNanos()) {
      try (Stream<Path> files = Files.walk(profile)) {
        files.sorted(Comparator.reverseOrder()).forEach(p -> p.toFile().delete());
      }
      if (Files.exists(profile)) {
        pause();
      }
    }
  }
}
