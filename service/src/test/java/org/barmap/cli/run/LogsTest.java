package org.barmap.cli.run;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.logging.Level;
import java.util.logging.LogRecord;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.barmap.map.json.BarMapJson;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A line of the log says what happened, and nothing of whom or what it happened to. */
class LogsTest {

  /** A call with its message, to the end of the statement. */
  private static final Pattern CALL = Pattern.compile("LOG\\.log\\(([^;]*)\\);");

  private static JsonNode line(String from, String message, Object... parameters) {
    LogRecord told = new LogRecord(Level.WARNING, message);
    told.setLoggerName(from);
    told.setParameters(parameters);
    told.setThrown(
        new IllegalStateException("Saltmarsh", new IOException("/books/k3/u1.png is missing")));
    String text = new Logs.JsonLine().format(told);
    assertThat(text).endsWith("}\n").doesNotContain("Saltmarsh", "/books/");
    return BarMapJson.mapper().readTree(text);
  }

  @Test
  void whatIsFilledInStaysInTheDataFolder() {
    JsonNode line = line("org.barmap.work.Worker", "failed: {0}", "Opening Saltmarsh.pdf");
    assertThat(line.path("message").asString()).isEqualTo("failed: {0}");
    assertThat(line.path("level").asString()).isEqualTo("WARNING");
    assertThat(line.path("errors").valueStream().map(JsonNode::asString))
        .containsExactly("java.lang.IllegalStateException", "java.io.IOException");
    assertThat(line.path("at").path(0).asString()).contains("LogsTest.line");
  }

  @Test
  void fieldsOfOursAreKeys() {
    JsonNode line = line("org.barmap.web", "request", Map.of("status", 200, "level", "none"));
    assertThat(line.path("status").asInt()).isEqualTo(200);
    assertThat(line.path("level").asString()).as("its own keys stay").isEqualTo("WARNING");
  }

  @Test
  void whatOtherLibrariesSayIsNotRepeated() {
    JsonNode line = line("org.eclipse.jetty.ee10", "GET /open?key=Saltmarsh");
    assertThat(line.path("message").asString()).doesNotContain("key");
    assertThat(line.path("from").asString()).isEqualTo("org.eclipse.jetty.ee10");
  }

  /** What may be of a book is filled in, or it would stand in the message itself. */
  @Test
  void messagesAreWrittenWhole() throws IOException {
    Path sources = Path.of(System.getProperty("barmap.home"), "service/src/main/java");
    try (Stream<Path> files = Files.walk(sources)) {
      List<String> put =
          files.filter(f -> f.toString().endsWith(".java")).flatMap(LogsTest::calls).toList();
      assertThat(put).hasSizeGreaterThan(20);
      assertThat(put).noneMatch(call -> call.replaceAll("\"\\s*\\+\\s*\"", "").contains("+"));
      assertThat(put).noneMatch(call -> call.matches("(?s).*WARNING,\\s*[a-z].*"));
    }
  }

  private static Stream<String> calls(Path file) {
    try {
      return CALL.matcher(Files.readString(file)).results().map(r -> text(file, r));
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static String text(Path file, MatchResult call) {
    return file.getFileName() + ": " + call.group(1);
  }
}
