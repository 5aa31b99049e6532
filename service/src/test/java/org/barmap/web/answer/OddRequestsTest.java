package org.barmap.web.answer;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.barmap.web.contract.ApiDescription;
import org.barmap.web.contract.ApiDescription.Operation;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/**
 * Every route of the description, asked in each way in which anything can be asked wrongly. What is
 * described is what must come, and nothing else may.
 */
class OddRequestsTest extends RunningServer {

  private static final String KEY = "0123456789abcdef";

  private static final String NOTE =
      "{\"kind\":\"remind\",\"number\":\"1\",\"first\":\"1\",\"what\":\"text\",\"text\":\"n\"}";

  private static final int OVER_4_MB = (4 << 20) + 1;
  private static final int OVER_32_MB = (32 << 20) + 1;
  private static final int OVER_200_MB = (200 << 20) + 1;

  private final List<String> otherwise = new ArrayList<>();

  @Override
  protected boolean isOdd() {
    return true;
  }

  private void wants(ApiError error, Operation route, HttpRequest.Builder request)
      throws Exception {
    HttpResponse<String> answer = send(request);
    if (answer.statusCode() != error.status() || !answer.body().contains(error.name())) {
      otherwise.add(route.route() + ": " + answer.statusCode() + " " + answer.body());
    }
  }

  private void assertAllCame() {
    assertThat(otherwise).isEmpty();
  }

  private static List<Operation> all() {
    return ApiDescription.INSTANCE.operations();
  }

  @Test
  void aBookThatIsNotThere() throws Exception {
    for (Operation route : all()) {
      if (route.path().contains("{b}")) {
        wants(ApiError.NO_BOOK, route, Asking.understood(to(Asking.path(route, "none")), route));
      }
    }
    assertAllCame();
  }

  /** The byte 255 occurs in no UTF-8 (RFC 3629, 3). */
  @Test
  void aNameThatIsNoText() throws Exception {
    for (Operation route : all()) {
      if (route.path().contains("{") && route.statuses().contains(400)) {
        String path = route.path().replaceAll("\\{\\w+}", "%FF");
        wants(ApiError.BAD_REQUEST, route, Asking.understood(to(path), route));
      }
    }
    assertAllCame();
  }

  /** A rest of 2.7 bars was taken as one of 2, page 1.9 as page 1. */
  @Test
  void aFractionIsNotCutOff() throws Exception {
    String book = "/api/books/" + readBook();
    String bar = json(get(book + "/map")).path("bars").path(0).path("id").asString();
    long revision = json(get(book)).path("revision").asLong();
    for (String said :
        List.of(
            "{\"kind\":\"set-count\",\"bar\":\"%s\",\"count\":2.7}",
            "{\"kind\":\"set-number\",\"bar\":\"%s\",\"number\":1.5}",
            "{\"kind\":\"verify-page\",\"page\":1.9,\"verified\":true}")) {
      assertProblem(
          post(book + "/corrections", said.formatted(bar), revision), ApiError.BAD_REQUEST);
    }
    assertProblem(put(book + "/settings", "{\"memoryBars\":7.9}", 0), ApiError.BAD_REQUEST);
    assertThat(json(get(book)).path("revision").asLong()).isEqualTo(revision);
  }

  @Test
  void aKeyOfAnEditThatIsNoneOrAnothers() throws Exception {
    String book = newBook();
    HttpRequest.Builder first = to("/api/books").header("Idempotency-Key", KEY);
    assertThat(send(first.POST(HttpRequest.BodyPublishers.ofString("{}"))).statusCode())
        .isEqualTo(201);
    for (Operation route : all()) {
      if (!Asking.reads(route)) {
        String path = Asking.path(route, book);
        wants(
            ApiError.BAD_REQUEST,
            route,
            Asking.as(to(path).header("Idempotency-Key", "short"), route, "{}"));
        wants(
            ApiError.KEY_USED,
            route,
            Asking.as(to(path).header("Idempotency-Key", KEY), route, "{ }"));
      }
    }
    assertAllCame();
  }

  /** With a key of the edit, for which every body is read, and before anything is made of it. */
  @Test
  void moreThanIsTaken() throws Exception {
    HttpRequest.BodyPublisher much = HttpRequest.BodyPublishers.ofByteArray(new byte[OVER_4_MB]);
    for (Operation route : all()) {
      if (!Asking.reads(route) && !Asking.FILES.contains(route.route())) {
        HttpRequest.Builder request =
            to(Asking.path(route, "none")).header("Idempotency-Key", "a-key-of-this-edit");
        wants(ApiError.TOO_LARGE, route, request.method(route.method(), much));
      }
    }
    assertAllCame();
  }

  /** A score may have 32 MB, any other file 200; {@code PageLimitTest} has too many pages. */
  @Test
  void aFileLargerThanIsTaken() throws Exception {
    String book = newBook();
    for (Operation route : all()) {
      if (Asking.FILES.contains(route.route()) && !route.path().endsWith("/pages")) {
        int bytes = route.path().endsWith("/second") ? OVER_32_MB : OVER_200_MB;
        HttpRequest.Builder request =
            to(Asking.path(route, book))
                .header("If-Match", "\"0\"")
                .header("Content-Type", "multipart/form-data; boundary=xx");
        wants(ApiError.TOO_LARGE, route, request.POST(Asking.file(bytes)));
      }
    }
    assertAllCame();
  }

  @Test
  void anEditWithoutARevisionOrWithAnOldOne() throws Exception {
    String book = readBook();
    String at = "/api/books/" + book;
    JsonNode pages = json(get(at)).path("pages");
    String change = json(post(at + "/changes", NOTE, 0)).path("change").path("id").asString();
    post(at + "/changes", NOTE, 1);
    post(at + "/changes/undo", "", 2); // so that there is a step back and a step forth
    Map<String, String> there = Map.of("p", pages.path(0).path("id").asString(), "c", change);
    Map<String, String> bodies =
        Map.of(
            "POST /api/books/{b}/changes",
            NOTE,
            "POST /api/books/{b}/changes/open",
            get(at + "/export/changes").body(),
            "POST /api/books/{b}/corrections",
            "{\"kind\":\"verify-page\",\"page\":1,\"verified\":true}",
            "POST /api/books/{b}/pages/{p}/retake",
            "{\"with\":\"" + pages.path(1).path("id").asString() + "\"}",
            "PUT /api/books/{b}/align",
            "{\"book\":\"" + newBook() + "\"}");
    for (Operation route : Asking.describing(ApiError.STALE.status(), "/api/")) {
      String path = Asking.path(route, book, there);
      wants(ApiError.NEEDS_REVISION, route, Asking.as(to(path), route, "{}"));
      if (!route.path().endsWith("/second")) { // SecondRoutesTest has a score for it
        String body = bodies.getOrDefault(route.route(), "{}");
        wants(ApiError.STALE, route, Asking.as(to(path).header("If-Match", "\"99\""), route, body));
      }
    }
    assertAllCame();
  }

  @Test
  void aRequestOfAnotherSite() throws Exception {
    for (Operation route : all()) {
      HttpRequest.Builder request = to(Asking.path(route, "none"));
      wants(
          ApiError.FOREIGN,
          route,
          Asking.understood(request.header("Origin", "https://elsewhere.example"), route));
    }
    assertAllCame();
  }

  @Test
  void wrongKeysOneAfterTheOther() throws Exception {
    for (int i = 0; i < 5; i++) {
      assertProblem(
          send(withoutKey("/api/books").header("Authorization", "Bearer wrong")),
          ApiError.NEEDS_KEY);
    }
    for (Operation route : Asking.describing(ApiError.SLOW_DOWN.status(), "/")) {
      String path = Asking.path(route, "none") + (route.path().equals("/open") ? "?key=wrong" : "");
      HttpRequest.Builder request = withoutKey(path).header("Authorization", "Bearer wrong");
      wants(ApiError.SLOW_DOWN, route, Asking.understood(request, route));
    }
    assertAllCame();
  }
}
