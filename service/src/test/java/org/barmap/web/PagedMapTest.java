package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The map page by page, steps answered with what they changed, and lists taken in one step. */
class PagedMapTest extends RunningServer {

  private static Set<Integer> pagesOfBars(JsonNode map) {
    Set<Integer> pages = new TreeSet<>();
    map.path("bars").forEach(b -> pages.add(b.path("page").asInt()));
    return pages;
  }

  @Test
  void onlyTheBarsOfThePagesAskedForAreSent() throws Exception {
    String map = "/api/books/" + readBook() + "/map";
    JsonNode whole = json(get(map));
    JsonNode first = json(get(map + "?pages=1"));
    assertThat(pagesOfBars(whole)).containsExactly(1, 2);
    assertThat(pagesOfBars(first)).containsExactly(1);
    assertThat(first.path("pages")).hasSize(2);
    assertThat(first.path("pages").get(0).path("systems"))
        .isEqualTo(whole.path("pages").get(0).path("systems"));
    assertThat(first.path("pages").get(1).path("systems")).isEmpty();
    String bar = whole.path("bars").get(11).path("id").asString();
    assertThat(pagesOfBars(json(get(map + "?pages=1&bar=" + bar)))).containsExactly(1, 2);
    assertThat(pagesOfBars(json(get(map + "?pages=99,x,-1")))).isEmpty();
    for (JsonNode number : first.path("numbers")) {
      assertThat(number.path("firstPage").asInt())
          .isLessThanOrEqualTo(number.path("lastPage").asInt());
    }
  }

  @Test
  void aStepIsAnsweredWithThePagesItChanged() throws Exception {
    String book = "/api/books/" + readBook();
    JsonNode map = json(get(book + "/map"));
    long revision = json(get(book)).path("revision").asLong();
    String bar = map.path("bars").get(8).path("id").asString();
    String mark =
        "{\"kind\":\"set-rehearsal\",\"bar\":\"" + bar + "\",\"text\":\"Q\",\"enclosure\":\"box\"}";
    JsonNode made = json(post(book + "/corrections?pages=changed", mark, revision));
    assertThat(pagesOfBars(made.path("map"))).containsExactly(2);
    assertThat(made.path("map").path("here").get(0).asInt()).isEqualTo(2);
    assertThat(made.path("map").toString()).contains("\"Q\"");
    JsonNode back = json(post(book + "/undo?pages=changed", "{}", revision + 1));
    assertThat(pagesOfBars(back.path("map"))).containsExactly(2);
    assertThat(json(get(book + "/map")).path("bars")).isEqualTo(map.path("bars"));
  }

  @Test
  void aPastedListIsOneStepAndIsTakenBackAsOne() throws Exception {
    String book = "/api/books/" + readBook();
    String cut = "{\"kind\":\"cut\",\"number\":\"%s\",\"first\":\"%d\",\"last\":\"%d\"}";
    List<String> cuts = List.of(cut.formatted("1", 2, 2), cut.formatted("1", 4, 4));
    String body = "{\"who\":\"Mo\",\"changes\":[" + String.join(",", cuts) + "]}";
    JsonNode made = json(post(book + "/changes", body, 0));
    assertThat(made.path("revision").asLong()).isEqualTo(1);
    assertThat(made.path("changes")).hasSize(2);
    assertThat(made.path("changes").get(1).path("who").asString()).isEqualTo("Mo");
    assertThat(made.path("entry").path("text").asString()).isEqualTo("Added: 2 changes");
    JsonNode back = json(post(book + "/changes/undo", "{}", 1));
    assertThat(back.path("changes")).isEmpty();
    assertProblem(post(book + "/changes", "{\"changes\":[]}", 2), ApiError.BAD_REQUEST);
    assertProblem(post(book + "/changes", "{\"changes\":[3]}", 2), ApiError.BAD_REQUEST);
  }
}
