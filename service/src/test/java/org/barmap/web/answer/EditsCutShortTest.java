package org.barmap.web.answer;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.Optional;
import org.barmap.library.Library;
import org.barmap.web.RunningServer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * A kill after an edit was made and before anything else: whoever asks by its key is told that it
 * was made, and sent again it is not made again. Every edit that the pages let wait ({@code
 * core/outbox.js}), and the steps back.
 */
class EditsCutShortTest extends RunningServer {

  private static final String NOTE =
      "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"n\"}";

  private String book = "";
  private int edits;

  @Override
  protected Library opened() throws IOException {
    return ForgetfulLibrary.of(super.opened());
  }

  @BeforeEach
  void begin() throws Exception {
    book = "/api/books/" + readBook();
  }

  private String tag(String path) throws Exception {
    return get(path).headers().firstValue("ETag").orElseThrow();
  }

  /** Makes an edit whose reply is lost; asks for it, and sends it again. */
  private HttpResponse<String> cutShort(String method, String path, String body, String seenAt)
      throws Exception {
    String key = "cut-short-0123456789-" + edits++;
    HttpRequest.Builder edit =
        to(path)
            .header("Idempotency-Key", key)
            .method(method, HttpRequest.BodyPublishers.ofString(body));
    if (!seenAt.isEmpty()) {
      edit.header("If-Match", tag(seenAt));
    }
    HttpResponse<String> made = send(edit);
    assertThat(made.statusCode()).as(path + " " + made.body()).isBetween(200, 204);
    JsonNode asked = json(send(to(book + "/edits/" + key).DELETE()));
    assertThat(asked.path("made").asBoolean()).as(method + " " + path).isTrue();
    Optional<String> after = made.headers().firstValue("ETag");
    assertThat("\"" + asked.path("revision").asLong() + "\"").isEqualTo(after.orElse("\"0\""));
    HttpResponse<String> again = send(edit);
    assertThat(again.statusCode()).as(again.body()).isEqualTo(200);
    assertThat(json(again).path("repeated").asBoolean()).as(method + " " + path).isTrue();
    assertThat(again.headers().firstValue("ETag")).isEqualTo(after);
    return made;
  }

  @Test
  void stepsOnTheMap() throws Exception {
    String map = book + "/map";
    String bar = json(get(map)).path("bars").path(0).path("id").asString();
    String count = "{\"kind\":\"set-count\",\"bar\":\"" + bar + "\",\"count\":4}";
    cutShort("POST", book + "/corrections", count, map);
    cutShort("POST", book + "/undo", "", map);
    cutShort("POST", book + "/redo", "", map);
    String page = json(get(book)).path("pages").path(0).path("id").asString();
    String frame = "{\"outline\":[[100,1200],[900,1200],[900,1280],[100,1280]]}";
    cutShort("POST", book + "/pages/" + page + "/line", frame, map);
    cutShort("PATCH", book, "{\"title\":\"Ebb\"}", book);
  }

  @Test
  void stepsOnTheChangesAndWhatElseMayWait() throws Exception {
    String changes = book + "/changes";
    JsonNode added = json(cutShort("POST", changes, NOTE, changes)).path("change");
    String own = changes + "/" + added.path("id").asString();
    cutShort("PATCH", own, "{\"text\":\"m\"}", changes);
    cutShort("DELETE", own, "", changes);
    cutShort("POST", changes + "/undo", "", changes);
    cutShort("POST", changes + "/redo", "", changes);
    String mark =
        "{\"mark\":{\"page\":1,\"system\":1,\"bar\":\"1:1\",\"mark\":\"V.S.\"},\"written\":true}";
    cutShort("POST", book + "/marks", mark, "");
    cutShort("PUT", book + "/settings", "{\"memoryBars\":7}", book + "/settings");
  }

  /** What was refused or old was not made, and may be sent with another key. */
  @Test
  void whatWasNotMadeIsNotSaidToBe() throws Exception {
    String changes = book + "/changes";
    String key = "not-made-0123456789";
    HttpRequest.Builder old =
        to(changes).header("If-Match", "\"7\"").header("Idempotency-Key", key);
    assertThat(send(old.POST(HttpRequest.BodyPublishers.ofString(NOTE))).statusCode())
        .isEqualTo(412);
    JsonNode asked = json(send(to(book + "/edits/" + key).DELETE()));
    assertThat(asked.path("made").asBoolean(true)).isFalse();
  }
}
