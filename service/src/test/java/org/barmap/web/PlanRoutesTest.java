package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Changes, plans, sheets and files to save over real HTTP. */
class PlanRoutesTest extends RunningServer {

  @Test
  void changesCountInThePlanAndTheirHistoryGoesBack() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book + "/changes";
    String cut = "{\"kind\":\"cut\",\"first\":\"3\",\"last\":\"5\"}";
    HttpResponse<String> made = post(path, cut, 0);
    assertThat(made.statusCode()).as(made.body()).isEqualTo(201);
    String id = json(made).path("change").path("id").asString();
    assertThat(json(made).path("checks")).as(made.body()).isEmpty();
    assertThat(json(get("/api/books/" + book + "/plan")).path("numbers").get(0).path("order"))
        .hasSize(9);
    assertThat(
            json(get("/api/books/" + book + "/plan?without=changes"))
                .path("numbers")
                .get(0)
                .path("order"))
        .hasSize(12);
    JsonNode road = json(get("/api/books/" + book + "/roadmap")).path("numbers").get(0);
    assertThat(road.path("bars").get(2).path("cut").asBoolean()).isTrue();
    assertThat(road.path("bars").get(5).path("cut").asBoolean()).isFalse();
    HttpResponse<String> off =
        send(
            to(path + "/" + id)
                .header("If-Match", "\"1\"")
                .method("PATCH", HttpRequest.BodyPublishers.ofString("{\"on\":false}")));
    assertThat(off.statusCode()).isEqualTo(200);
    assertThat(json(get(path)).path("changes").get(0).path("on").asBoolean(true)).isFalse();
    assertThat(post(path + "/undo", "", 2).statusCode()).isEqualTo(200);
    assertProblem(post(path, "{\"kind\":\"cut\"}", 3), ApiError.REFUSED);
    assertProblem(send(to(path + "/nix").header("If-Match", "3").DELETE()), ApiError.NO_CHANGE);
  }

  /** RFC 7396: what is null in a patch is taken out. */
  @Test
  void inWhichShowsAndUntilWhenAChangeHoldsCanBeSaidAndTakenBackLater() throws Exception {
    String path = "/api/books/" + readBook() + "/changes";
    String cut = "{\"kind\":\"cut\",\"first\":\"3\",\"last\":\"5\",\"note\":\"slow\"}";
    String id = json(post(path, cut, 0)).path("change").path("id").asString();
    patch(path + "/" + id, 1, "{\"version\":\"matinee\",\"until\":\"2999-12-24\"}", 200);
    JsonNode held = json(get(path)).path("changes").get(0);
    assertThat(held.path("version").asString("")).isEqualTo("matinee");
    assertThat(held.path("until").asString("")).isEqualTo("2999-12-24");
    patch(path + "/" + id, 2, "{\"version\":null,\"until\":null,\"note\":null}", 200);
    JsonNode always = json(get(path)).path("changes").get(0);
    assertThat(always.propertyNames()).doesNotContain("version", "until", "note");
    assertThat(always.path("first").asString("")).isEqualTo("3");
    patch(path + "/" + id, 3, "{\"first\":null}", ApiError.REFUSED.status());
  }

  private void patch(String path, int revision, String body, int status) throws Exception {
    HttpResponse<String> answer =
        send(
            to(path)
                .header("If-Match", "\"" + revision + "\"")
                .method("PATCH", HttpRequest.BodyPublishers.ofString(body)));
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
  }

  @Test
  void wordsAreUnderstoodOrAskedBackAndNothingIsStored() throws Exception {
    String book = readBook();
    HttpResponse<String> heard =
        post(
            "/api/books/" + book + "/changes/understand",
            "{\"text\":\"cut 3 to 5\\ncut 3 until 5\\ncut the dog\\nlighter at 4\"}");
    JsonNode lines = json(heard).path("lines");
    assertThat(lines.get(0).has("understood")).as(heard.body()).isTrue();
    assertThat(lines.get(0).path("understood").path("kind").asString()).isEqualTo("cut");
    assertThat(lines.get(0).path("says").asString()).contains("Out: 3 to 5", "you land on 6");
    assertThat(lines.get(1).path("asks").asString()).isNotEmpty();
    assertThat(lines.get(1).path("readings")).hasSize(2);
    JsonNode until = lines.get(1).path("readings").get(1);
    assertThat(until.path("says").asString()).contains("out: 3 to 4", "you land on 5");
    assertThat(until.path("changes").get(0).path("kind").asString()).isEqualTo("cut");
    assertThat(until.path("changes").get(0).has("id")).isFalse();
    assertThat(lines.get(2).path("asks").asString()).isNotEmpty();
    assertThat(lines.get(2).path("keep").path("kind").asString()).isEqualTo("note");
    assertThat(lines.get(3).path("note").asBoolean()).isTrue();
    assertThat(lines.get(3).path("understood").path("first").asString()).isEqualTo("4");
    assertThat(json(get("/api/books/" + book + "/changes")).path("changes")).isEmpty();
  }

  @Test
  void wordsAboutAnEarlierChangeFindItInTheList() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book + "/changes";
    post(path, "{\"kind\":\"cut\",\"first\":\"3\",\"last\":\"5\"}", 0);
    JsonNode held = json(get(path)).path("changes").get(0);
    JsonNode line =
        json(post(path + "/understand", "{\"text\":\"the cut goes to 6 now\"}"))
            .path("lines")
            .get(0);
    JsonNode cut = line.path("understood");
    assertThat(cut.path("last").asString("")).isEqualTo("6");
    assertThat(cut.path("replaces").asString("")).isEqualTo(held.path("id").asString());
    post(path, cut.toString(), 1);
    JsonNode numbers = json(get("/api/books/" + book + "/plan")).path("numbers");
    assertThat(numbers.get(0).path("played").path("bars").asInt()).isEqualTo(8);
  }

  @Test
  void sheetsArePrinted() throws Exception {
    String book = readBook();
    for (String sheet :
        List.of("run", "turns", "rests", "changes", "pencil", "erase", "substitute", "errata")) {
      HttpResponse<String> pdf =
          get("/api/books/" + book + "/sheets/" + sheet + ".pdf?paper=Letter&big=true");
      assertThat(pdf.statusCode()).as(sheet).isEqualTo(200);
      assertThat(pdf.body()).as(sheet).startsWith("%PDF");
    }
    assertProblem(get("/api/books/" + book + "/sheets/songs.pdf"), ApiError.NOT_FOUND);
  }

  @Test
  void whatWouldFollowFromAChangeIsSaidAndNothingIsStored() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book + "/changes";
    String all = "{\"kind\":\"cut\",\"first\":\"1\",\"last\":\"12\"}";
    HttpResponse<String> checked = post(path + "/check", all);
    assertThat(json(checked).path("checks").get(0).path("code").asString()).isEqualTo("cut-all");
    assertThat(json(get(path)).path("changes")).isEmpty();
    assertProblem(post(path + "/check", "{\"kind\":\"cut\"}"), ApiError.REFUSED);
  }

  @Test
  void whatIsDifferentSinceAMomentIsSaid() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book + "/changes";
    String before = Instant.now().toString();
    HttpResponse<String> made = post(path, "{\"kind\":\"cut\",\"first\":\"3\",\"last\":\"5\"}", 0);
    assertThat(json(made).path("plan").path("numbers").get(0).path("order")).hasSize(9);
    JsonNode since = json(get("/api/books/" + book + "/plan/since?moment=" + before));
    assertThat(since.path("changes").get(0).path("now").asString()).isEqualTo("cut 3 to 5");
    assertThat(since.path("diff").path("numbers").get(0).path("text").asString())
        .isEqualTo("3 bars fewer");
    assertThat(since.path("diff").path("write")).isNotEmpty();
    JsonNode now =
        json(get("/api/books/" + book + "/plan/since?moment=" + Instant.now().plusSeconds(5)));
    assertThat(now.path("changes")).isEmpty();
    assertThat(now.path("diff").path("numbers")).isEmpty();
    assertProblem(get("/api/books/" + book + "/plan/since?moment=tuesday"), ApiError.REFUSED);
  }

  @Test
  void aRehearsalIsKeptWithTheSettings() throws Exception {
    String path = "/api/books/" + newBook() + "/settings";
    String body = "{\"rehearsedAt\":\"2026-11-24T22:30:00Z\"}";
    HttpResponse<String> kept = put(path, body, 0);
    assertThat(json(kept).path("rehearsedAt").asString()).isEqualTo("2026-11-24T22:30:00Z");
    assertThat(json(get(path)).path("rehearsedAt").asString()).isEqualTo("2026-11-24T22:30:00Z");
    assertThat(json(get(path)).path("memoryBars").asInt()).isEqualTo(4);
    assertProblem(put(path, "{\"rehearsedAt\":\"tuesday\"}", 1), ApiError.BAD_REQUEST);
  }

  @Test
  void howThePagesLieIsKeptWithTheSettings() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book + "/settings";
    String page = json(get("/api/books/" + book)).path("pages").get(0).path("id").asString();
    String body = "{\"firstPage\":\"left\",\"leaves\":{\"" + page + "\":\"inserted\"}}";
    put(path, body, 0);
    JsonNode turns = json(get("/api/books/" + book + "/plan")).path("settings").path("turns");
    assertThat(turns.path("firstPage").asString()).isEqualTo("left");
    assertThat(turns.path("leaves").path("1").asString()).isEqualTo("inserted");
    assertThat(json(put(path, "{\"firstPage\":null,\"leaves\":{}}", 1)).path("leaves")).isEmpty();
    assertThat(json(get(path)).has("firstPage")).isFalse();
    assertProblem(put(path, "{\"firstPage\":\"above\"}", 2), ApiError.REFUSED);
  }

  @Test
  void aPartOfARestThatIsCutIsKnownOnTheRoadMap() throws Exception {
    String book = readBook();
    String bar = json(get("/api/books/" + book + "/map")).path("bars").get(1).path("id").asString();
    long revision = revision("/api/books/" + book + "/map");
    post(
        "/api/books/" + book + "/corrections",
        "{\"kind\":\"set-content\",\"bar\":\"" + bar + "\",\"content\":\"multi-rest\",\"count\":8}",
        revision);
    post("/api/books/" + book + "/changes", "{\"kind\":\"cut\",\"first\":\"4\",\"last\":\"5\"}", 0);
    JsonNode box =
        json(get("/api/books/" + book + "/roadmap")).path("numbers").get(0).path("bars").get(1);
    assertThat(box.path("cut").asBoolean()).isFalse();
    assertThat(box.path("cutParts").get(0).path("from").asDouble()).isEqualTo(0.25);
    assertThat(box.path("cutParts").get(0).path("to").asDouble()).isEqualTo(0.5);
  }

  private long revision(String path) throws Exception {
    return Long.parseLong(get(path).headers().firstValue("ETag").orElse("").replace("\"", ""));
  }

  @Test
  void filesToSaveHaveTheirTypesAndNames() throws Exception {
    String book = readBook();
    Map<String, String> types =
        Map.of(
            "map", "application/json",
            "musicxml", "application/vnd.recordare.musicxml+xml",
            "csv", "text/csv",
            "bars", "text/csv",
            "cutlist", "text/plain",
            "errata", "text/csv",
            "changes", "application/json",
            "plan", "application/json",
            "table-turns", "text/csv",
            "xlsx", "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet");
    for (Map.Entry<String, String> form : types.entrySet()) {
      HttpResponse<String> file = get("/api/books/" + book + "/export/" + form.getKey());
      assertThat(file.statusCode()).as(form.getKey()).isEqualTo(200);
      assertThat(file.headers().firstValue("Content-Type").orElse("")).startsWith(form.getValue());
      assertThat(file.headers().firstValue("Content-Disposition").orElse(""))
          .startsWith("attachment; filename=\"Saltmarsh-Bass.");
    }
    assertThat(BarMapJson.read(get("/api/books/" + book + "/export/map").body()).bars())
        .hasSize(12);
    assertProblem(get("/api/books/" + book + "/export/songs"), ApiError.NOT_FOUND);
    assertProblem(get("/api/books/" + book + "/export/table-songs"), ApiError.NOT_FOUND);
    assertProblem(get("/api/books/" + newBook() + "/export/musicxml"), ApiError.REFUSED);
  }

  /** The click needs a tempo where the book has none; what is asked for is looked at first. */
  @Test
  void notationAndClicksAreFiles() throws Exception {
    String export = "/api/books/" + readBook() + "/export/";
    Map<String, String> types =
        Map.of(
            "musicxml-played", "application/vnd.recordare.musicxml+xml",
            "musicxml-playable", "application/vnd.recordare.musicxml+xml",
            "musicxml-numbers", "application/zip",
            "musicxml-left-out", "text/plain",
            "mei", "application/mei+xml",
            "midi?tempo=96", "audio/midi");
    for (Map.Entry<String, String> form : types.entrySet()) {
      HttpResponse<String> file = get(export + form.getKey());
      assertThat(file.statusCode()).as(form.getKey()).isEqualTo(200);
      assertThat(file.headers().firstValue("Content-Type").orElse("")).startsWith(form.getValue());
    }
    assertThat(get(export + "midi?tempo=96").body()).startsWith("MThd");
    assertThat(get(export + "musicxml-left-out").body()).startsWith("There are no notes");
    assertProblem(get(export + "midi"), ApiError.REFUSED);
    assertProblem(get(export + "midi?tempo=1e9"), ApiError.BAD_REQUEST);
    assertProblem(get(export + "midi?tempo=5"), ApiError.BAD_REQUEST);
    assertProblem(get(export + "musicxml?number=99"), ApiError.REFUSED);
  }
}
