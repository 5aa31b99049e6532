package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.stream.Stream;
import org.barmap.library.Library;
import org.barmap.library.keep.OurFiles;
import org.barmap.library.picture.ApartPictures;
import org.barmap.library.sqlite.SqliteLibrary;
import org.barmap.web.RunningServer;
import org.barmap.web.WebServer;
import org.barmap.web.api.ApiError;
import org.barmap.work.engine.EngineCommand;
import org.barmap.work.engine.EngineJobs;
import org.barmap.work.engine.EngineLimits;
import org.barmap.work.hook.NetRules;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A book is read by a reader that the service was started with, and by no other. */
class EngineRoutesTest extends RunningServer {

  private static final String SCORE =
      "<score-partwise><part-list><score-part id=\"P1\"><part-name>Bass</part-name></score-part>"
          + "</part-list><part id=\"P1\"><measure number=\"1\"/><measure number=\"2\"/></part>"
          + "</score-partwise>";

  private EngineJobs jobs;

  @BeforeEach
  void withEngines() throws Exception {
    server.close();
    Path score = Files.writeString(folder.resolve("said.musicxml"), SCORE);
    jobs =
        new EngineJobs(
            library,
            worker,
            events,
            List.of(
                EngineCommand.of("good=cp -t {out} " + score + " {pages}/page-0001.png"),
                EngineCommand.of("bad=sh -c 'echo no licence; exit 3' {pages} {out}")),
            EngineLimits.STANDARD);
    server = WebServer.start(library, worker, events, folder, 0, places(), NetRules.INTERNET, jobs);
  }

  @AfterEach
  void closeEngines() {
    jobs.close();
  }

  @Override
  protected Library opened() throws IOException {
    return SqliteLibrary.open(
        folder, ApartPictures.of(folder.resolve("apart"), folder), Clock.systemUTC());
  }

  private List<String> readings(String where, String book) throws IOException {
    try (Stream<Path> files = Files.list(folder.resolve(where).resolve(book))) {
      return files.map(OurFiles::name).filter(name -> name.endsWith(".reading")).toList();
    }
  }

  @Test
  void whatItReadIsKeptWithThePicturesAndGoesWithThem() throws Exception {
    String book = readBook();
    String base = "/api/books/" + book + "/engines";
    post(base, "{\"name\":\"good\"}");
    ended(base);
    List<String> first = readings("apart", book);
    assertThat(first).hasSize(1).isEqualTo(readings("books", book));
    assertThat(OurFiles.isPicture(folder.resolve("books").resolve(book).resolve(first.get(0))))
        .isTrue();
    post(base, "{\"name\":\"good\"}");
    ended(base);
    assertThat(readings("apart", book)).hasSize(1).isNotEqualTo(first);
    assertThat(readings("books", book)).isEqualTo(readings("apart", book));
  }

  private JsonNode ended(String base) {
    await().until(() -> !json(get(base)).at("/asked/running").asBoolean(true));
    return uncheckedGet(base);
  }

  private JsonNode uncheckedGet(String base) {
    try {
      return json(get(base));
    } catch (Exception e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void whatItReadIsTheBooksSecondReading() throws Exception {
    String book = readBook();
    String base = "/api/books/" + book + "/engines";
    assertThat(get(base).body()).contains("good", "bad").doesNotContain("licence", "asked");
    HttpResponse<String> asked = post(base, "{\"name\":\"good\"}");
    assertThat(asked.statusCode()).isEqualTo(202);
    assertThat(ended(base).path("asked").has("why")).as(get(base).body()).isFalse();
    JsonNode second = json(get("/api/books/" + book + "/second")).path("second");
    assertThat(second.path("name").asString()).isEqualTo("good");
    assertThat(second.at("/parts/0/bars").asInt()).isEqualTo(2);
    post(base, "{\"name\":\"bad\"}");
    JsonNode failed = ended(base);
    assertThat(failed.at("/asked/why").asString())
        .isEqualTo("bad ended with exit code 3: no licence");
    // the one before stays
    assertThat(get("/api/books/" + book + "/second").body()).contains("good");
  }

  @Test
  void aRequestBringsNoCommand() throws Exception {
    String base = "/api/books/" + newBook() + "/engines";
    String command = "x=touch " + folder.resolve("made") + " {pages} {out}";
    assertProblem(post(base, "{\"name\":\"" + command + "\"}"), ApiError.REFUSED);
    assertProblem(post(base, "{\"name\":\"sh\"}"), ApiError.REFUSED);
    assertThat(folder.resolve("made")).doesNotExist();
  }
}
