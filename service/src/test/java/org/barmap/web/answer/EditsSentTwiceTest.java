package org.barmap.web.answer;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.net.InetAddress;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import org.barmap.library.HookTarget;
import org.barmap.web.RunningServer;
import org.barmap.work.hook.HookSender;
import org.barmap.work.hook.NetRules;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * An edit with a key of its own that is sent again, as after a line that broke off, is answered and
 * not made again: the routes where no other test does it.
 */
class EditsSentTwiceTest extends RunningServer {

  private static final String NO_BODY = "";

  private String book = "";

  @Override
  protected List<InetAddress> shareAt() throws IOException {
    return List.of(InetAddress.getByName("127.0.0.2"));
  }

  @BeforeEach
  void begin() throws Exception {
    allowMyNet();
    book = "/api/books/" + readBook();
  }

  /** Returns the first answer, in which it was made. */
  private HttpResponse<String> twice(String method, String path, String body) throws Exception {
    return twice(method, path, body, Optional.empty());
  }

  private HttpResponse<String> twice(
      String method, String path, String body, Optional<Long> revision) throws Exception {
    String key = UUID.randomUUID().toString();
    HttpRequest.Builder request =
        to(path)
            .header("Idempotency-Key", key)
            .method(method, HttpRequest.BodyPublishers.ofString(body));
    revision.ifPresent(r -> request.header("If-Match", "\"" + r + "\""));
    HttpResponse<String> made = send(request);
    assertThat(made.statusCode()).as(path + " " + made.body()).isBetween(200, 204);
    assertThat(made.body()).doesNotContain("\"repeated\"");
    HttpResponse<String> again = send(request);
    assertThat(again.statusCode()).isEqualTo(200);
    assertThat(json(again).path("repeated").asBoolean()).as(path).isTrue();
    return made;
  }

  private Optional<Long> revision(String path) throws Exception {
    return get(path).headers().firstValue("ETag").map(tag -> Long.valueOf(tag.replace("\"", "")));
  }

  private void isRead() {
    await().atMost(Duration.ofSeconds(60)).until(() -> json(get(book)).path("job").isMissingNode());
  }

  @Test
  void booksAndLinks() throws Exception {
    int before = json(get("/api/books")).path("books").size();
    String other = "/api/books/" + json(twice("POST", "/api/books", "{}")).path("id").asString();
    assertThat(json(get("/api/books")).path("books")).hasSize(before + 1);
    twice("DELETE", other, NO_BODY);
    twice("DELETE", other.replace("books", "bin"), NO_BODY);
    twice("POST", book + "/here", "{\"desk\":\"a-desk-of-mine\"}");
    twice("POST", book + "/share", "{\"as\":\"reader\"}");
    assertThat(json(get(book + "/share")).path("open")).hasSize(1);
    twice("POST", book + "/align/list", "{\"text\":\"7 Low Tide: A 9, B 17, end 48\"}");
    twice("DELETE", "/api/kept/set-aside", NO_BODY);
  }

  @Test
  void changes() throws Exception {
    String changes = book + "/changes";
    String note =
        "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"n\"}";
    HttpResponse<String> made = twice("POST", changes, note, Optional.of(0L));
    String own = changes + "/" + json(made).path("change").path("id").asString();
    twice("DELETE", own, NO_BODY, revision(changes));
    assertThat(json(twice("POST", changes + "/undo", NO_BODY, revision(changes))).path("changes"))
        .hasSize(1);
    assertThat(json(twice("POST", changes + "/redo", NO_BODY, revision(changes))).path("changes"))
        .isEmpty();
  }

  /** Whoever takes an edit back without having heard of it asks: made, or never to be made. */
  @Test
  void anEditThatIsTakenBackUnheardIsMadeOrNeverWillBe() throws Exception {
    String changes = book + "/changes";
    String edits = book + "/edits/";
    String note =
        "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"n\"}";
    HttpRequest.Builder add =
        to(changes).header("If-Match", "\"0\"").POST(HttpRequest.BodyPublishers.ofString(note));
    JsonNode never = json(twice("DELETE", edits + "never-came-0123456789", NO_BODY));
    assertThat(never.path("made").asBoolean(true)).isFalse();
    HttpResponse<String> late = send(add.copy().header("Idempotency-Key", "never-came-0123456789"));
    assertThat(late.statusCode()).isEqualTo(422);
    assertThat(late.body()).contains("taken back before it came");
    assertThat(json(get(changes)).path("changes")).isEmpty();
    send(add.copy().header("Idempotency-Key", "did-come-0123456789"));
    assertThat(json(get(changes)).path("changes")).hasSize(1);
    JsonNode came = json(send(to(edits + "did-come-0123456789").DELETE()));
    assertThat(came.path("made").asBoolean()).isTrue();
    assertThat(came.path("revision").asLong()).isEqualTo(revision(changes).orElseThrow());
    post(changes + "/undo", NO_BODY, came.path("revision").asLong());
    assertThat(json(get(changes)).path("changes")).isEmpty();
  }

  /** Whoever may change one book learns nothing of edits of others, nor of those of no book. */
  @Test
  void anEditIsAskedForAtItsOwnBookOnly() throws Exception {
    String key = "of-a-book-0123456789";
    String note =
        "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"n\"}";
    HttpRequest.Builder add = to(book + "/changes").header("If-Match", "\"0\"");
    send(add.header("Idempotency-Key", key).POST(HttpRequest.BodyPublishers.ofString(note)));
    String none = "of-none-0123456789";
    HttpRequest.Builder begin = to("/api/books").header("Idempotency-Key", none);
    HttpResponse<String> begun = send(begin.POST(HttpRequest.BodyPublishers.ofString("{}")));
    String other = "/api/books/" + json(begun).path("id").asString();
    for (String foreign : List.of(key, none)) {
      HttpResponse<String> answer = send(to(other + "/edits/" + foreign).DELETE());
      assertThat(answer.statusCode()).as(answer.body()).isEqualTo(422);
      assertThat(answer.body()).doesNotContain("\"made\"");
    }
    assertThat(json(send(to(book + "/edits/" + key).DELETE())).path("made").asBoolean()).isTrue();
  }

  /** While an edit is being made nobody can say yet whether it was. */
  @Test
  void anEditThatIsJustBeingMadeIsAskedForLater() throws Exception {
    String key = "being-made-0123456789";
    CompletableFuture<Integer> asked = new CompletableFuture<>();
    events.listen(
        book.substring(book.lastIndexOf('/') + 1),
        (name, data) -> {
          try {
            asked.complete(send(to(book + "/edits/" + key).DELETE()).statusCode());
          } catch (Exception e) {
            asked.completeExceptionally(e);
          }
        });
    String note =
        "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"n\"}";
    HttpRequest.Builder add = to(book + "/changes").header("If-Match", "\"0\"");
    send(add.header("Idempotency-Key", key).POST(HttpRequest.BodyPublishers.ofString(note)));
    assertThat(asked.get()).isEqualTo(503);
    assertThat(json(send(to(book + "/edits/" + key).DELETE())).path("made").asBoolean()).isTrue();
  }

  @Test
  void pages() throws Exception {
    JsonNode pages = json(get(book)).path("pages");
    String one = pages.path(0).path("id").asString();
    String two = pages.path(1).path("id").asString();
    String order = "{\"order\":[\"%s\",\"%s\"]}".formatted(two, one);
    twice("POST", book + "/pages/order", order, revision(book));
    CompletableFuture<HttpResponse<String>> skipped = new CompletableFuture<>();
    events.listen(
        book.substring(book.lastIndexOf('/') + 1),
        (name, data) -> {
          if (name.equals("page") && !skipped.isDone()) {
            try {
              skipped.complete(twice("POST", book + "/pages/skip", NO_BODY));
            } catch (Exception | AssertionError e) {
              skipped.completeExceptionally(e);
            }
          }
        });
    twice("POST", book + "/pages/" + one + "/again", NO_BODY, revision(book));
    assertThat(skipped.get().statusCode()).isEqualTo(204);
    isRead();
    twice("DELETE", book + "/pages/" + one, NO_BODY, revision(book));
    assertThat(json(get(book)).path("pages")).hasSize(1);
  }

  @Test
  void webHooks() throws Exception {
    for (String base : List.of("/api/hooks", book + "/hooks")) {
      try (HookTarget target = new HookTarget();
          HookSender sender =
              new HookSender(library.feed(), new NetRules(true), Clock.systemUTC())) {
        String address = "{\"address\":\"" + target.address() + "\"}";
        String own =
            base + "/" + json(twice("POST", base, address)).path("hook").path("id").asString();
        assertThat(json(get(base)).path("hooks")).hasSize(1);
        twice("POST", own + "/try", NO_BODY);
        while (sender.runOne()) {
          // until nothing waits
        }
        assertThat(target.heard()).hasSize(1);
        String sent = json(get(own)).path("deliveries").path(0).path("id").asString();
        twice("POST", own + "/deliveries/" + sent + "/again", NO_BODY);
        twice("PATCH", own, "{\"on\":false}");
        twice("DELETE", own, NO_BODY);
      }
    }
  }
}
