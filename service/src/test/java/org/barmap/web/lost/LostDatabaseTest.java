package org.barmap.web.lost;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.library.Stores;
import org.barmap.library.postgres.DatabaseAddress;
import org.barmap.library.postgres.PostgresLibrary;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * A database that is away or answers late: that is said, nothing is half kept, and everything goes
 * on by itself when it is there again.
 */
class LostDatabaseTest extends RunningServer {

  private static final String CHANGE =
      "{\"changes\":[{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"note\"}]}";

  private LooseLine line;

  @SuppressWarnings("NullAway.Init") // when the library is opened
  LostDatabaseTest() {}

  @Override
  protected Library opened() throws IOException {
    URI database = URI.create(Stores.postgres(folder));
    line = new LooseLine(database.getPort());
    String through =
        "postgresql://postgres@localhost:%d%s?connectTimeout=1&socketTimeout=2"
            .formatted(line.port(), database.getPath());
    return PostgresLibrary.open(
        DatabaseAddress.of(through, Optional.empty()), folder, Clock.systemUTC());
  }

  @AfterEach
  void mend() {
    line.mend();
  }

  private HttpResponse<String> change(String book, long revision) throws Exception {
    return post("/api/books/" + book + "/changes", CHANGE, revision);
  }

  private JsonNode changes(String book) throws Exception {
    return json(get("/api/books/" + book + "/changes"));
  }

  private void assertAway(HttpResponse<String> answer) {
    assertProblem(answer, ApiError.AWAY);
    assertThat(answer.headers().firstValue("Retry-After")).isPresent();
    assertThat(answer.body()).doesNotContain("postgres");
  }

  @Test
  void aLineThatIsCutIsSaidAndTakenUpAgain() throws Exception {
    String book = library.books().add("Saltmarsh", "Bass").id();
    assertThat(change(book, 0).statusCode()).isEqualTo(201);
    line.cut();
    assertAway(change(book, 1));
    assertAway(get("/api/books"));
    line.mend();
    await().until(() -> change(book, 1).statusCode() != 503);
    assertThat(changes(book).path("changes")).hasSize(2);
    assertThat(library.changes().history(book).entries()).hasSize(2);
  }

  @Test
  void aDatabaseThatAnswersLateIsGivenUpAndNothingIsHalfKept() throws Exception {
    String book = library.books().add("Saltmarsh", "Bass").id();
    assertThat(change(book, 0).statusCode()).isEqualTo(201);
    line.stick();
    assertAway(change(book, 1));
    line.mend();
    await().until(() -> get("/api/books").statusCode() == 200);
    int kept = changes(book).path("changes").size();
    assertThat(library.changes().find(book).orElseThrow().revision()).isEqualTo(kept);
    assertThat(library.changes().history(book).entries()).hasSize(kept);
    await().until(() -> change(book, kept).statusCode() == 201);
  }

  @Test
  void readingGoesOnByItself() throws Exception {
    String book = library.books().add("Saltmarsh", "Bass").id();
    line.cut();
    worker.wake();
    line.mend();
    await().until(() -> get("/api/books").statusCode() == 200);
    HttpResponse<String> taken = upload(book, "one.png", png(), "two.png", png());
    assertThat(taken.statusCode()).isEqualTo(202);
    line.cut();
    line.mend();
    await()
        .atMost(Duration.ofSeconds(20))
        .until(
            () -> {
              JsonNode shown = json(get("/api/books/" + book));
              return shown.path("bars").asInt() == 12 && shown.path("job").isMissingNode();
            });
  }
}
