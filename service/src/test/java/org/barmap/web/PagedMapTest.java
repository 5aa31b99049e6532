package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

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

  @Test
  void aStepOfTheChangesIsAnsweredWithTheNumbersThatAreDrawnOtherwise() throws Exception {
    String book = "/api/books/" + readBook();
    for (int bar : List.of(0, 6)) {
      String starts =
          "{\"kind\":\"start-number\",\"bar\":\"%s\",\"label\":\"%d\",\"title\":\"\"}"
              .formatted(json(get(book + "/map")).at("/bars/" + bar + "/id").asString(), 1 + bar);
      long revision = json(get(book)).path("revision").asLong();
      assertThat(post(book + "/corrections", starts, revision).statusCode()).isEqualTo(200);
    }
    String changed = "?numbers=changed";
    JsonNode before = json(get(book + "/roadmap"));
    assertThat(before.path("numbers").size()).isGreaterThan(1);
    String second = before.path("numbers").get(1).path("label").asString();
    String first = Integer.toString(before.at("/numbers/1/bars/1/number").asInt());
    String cut =
        "{\"kind\":\"cut\",\"number\":\"%s\",\"first\":\"%s\",\"last\":\"%s\"}"
            .formatted(second, first, first);
    JsonNode made = json(post(book + "/changes" + changed, cut, 0));
    JsonNode now = json(get(book + "/roadmap"));
    assertThat(now.path("numbers")).isNotEqualTo(before.path("numbers"));
    assertThat(made.has("plan")).isFalse();
    assertThat(made.path("road").path("at").toString()).isEqualTo("[1]");
    assertThat(merged(before, made)).isEqualTo(now);
    JsonNode off =
        json(
            send(
                to(book + "/changes/" + made.path("change").path("id").asString() + changed)
                    .header("If-Match", "\"1\"")
                    .method("PATCH", HttpRequest.BodyPublishers.ofString("{\"on\":false}"))));
    JsonNode without = json(get(book + "/roadmap"));
    assertThat(merged(now, off)).isEqualTo(without);
    assertThat(without.path("numbers")).isEqualTo(before.path("numbers"));
    JsonNode again = json(post(book + "/changes/undo" + changed, "{}", 2));
    assertThat(merged(without, again)).isEqualTo(json(get(book + "/roadmap")));
    assertThat(merged(without, again).path("numbers")).isEqualTo(now.path("numbers"));
    assertThat(json(get(book + "/plan")).path("turns")).hasSameSizeAs(now.at("/beside/turns"));
  }

  /** The form as it was, with what a step says is drawn otherwise. */
  private static JsonNode merged(JsonNode road, JsonNode step) {
    ObjectNode merged = (ObjectNode) step.path("road").deepCopy();
    assertThat(merged.remove("before")).isEqualTo(road.path("basis"));
    ArrayNode numbers = (ArrayNode) road.path("numbers").deepCopy();
    for (int i = 0; i < merged.path("at").size(); i++) {
      numbers.set(merged.path("at").get(i).asInt(), merged.path("numbers").get(i));
    }
    merged.remove("at");
    merged.set("changesRevision", step.path("revision"));
    merged.set("numbers", numbers);
    return merged;
  }
}
