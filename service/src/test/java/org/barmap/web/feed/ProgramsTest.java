package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.barmap.web.RunningServer;
import org.junit.jupiter.api.Test;

/**
 * The two programs of the documentation, run as it says: they print what stands beside them there.
 * What the demo book has to come to was said by its makers ({@code README.md}, No. 6: 122 bars
 * played, 110 with 12 bars cut).
 */
class ProgramsTest extends RunningServer {

  private static final Path HOME = Path.of(System.getProperty("barmap.home"));
  private static final Path PROGRAMS = HOME.resolve("web-static/site/docs/programs");

  private String demo() throws Exception {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.writeBytes(
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"demo.json\"\r\n\r\n"
            .getBytes(StandardCharsets.UTF_8));
    body.writeBytes(Files.readAllBytes(HOME.resolve("corpus/saltmarsh/saltmarsh.barmap.json")));
    body.writeBytes("\r\n--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    HttpResponse<String> opened =
        send(
            to("/api/books/open")
                .header("Content-Type", "multipart/form-data; boundary=xx")
                .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
    assertThat(opened.statusCode()).as(opened.body()).isEqualTo(201);
    return json(opened).path("id").asString();
  }

  /** Runs a program; a first line that says how it was started is no output. */
  private String run(List<String> command, String... more) throws Exception {
    List<String> all = new ArrayList<>(command);
    all.addAll(List.of("http://127.0.0.1:" + server.port(), server.key()));
    all.addAll(List.of(more));
    Path out = folder.resolve("printed.txt");
    Process process =
        new ProcessBuilder(all).redirectErrorStream(true).redirectOutput(out.toFile()).start();
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).as("it ends").isTrue();
    return Files.readString(out);
  }

  private static List<String> shown(String name) throws IOException {
    List<String> lines = Files.readAllLines(PROGRAMS.resolve(name));
    assertThat(lines.get(0)).startsWith("$ ");
    return lines.subList(1, lines.size());
  }

  @Test
  void bothPrintWhatTheDocumentationShows() throws Exception {
    String book = demo();
    List<String> node = List.of("node", PROGRAMS.resolve("turn-planner.mjs").toString());
    assertThat(run(node, book).lines()).containsExactlyElementsOf(shown("turn-planner.txt"));
    List<String> java =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            PROGRAMS.resolve("CutPlanner.java").toString());
    assertThat(run(java, book, "6", "64", "75").lines())
        .containsExactlyElementsOf(shown("cut-planner.txt"))
        .contains("  122 bars", "  110 bars");
    assertThat(json(get("/api/books/" + book + "/changes")).path("changes").path(0).path("first"))
        .hasToString("\"64\"");
    assertThat(run(node, "nobody")).contains("There is no such book");
  }
}
