package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.zip.GZIPInputStream;
import org.barmap.map.BarMap;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A checked map over HTTP: numbered, the same for ever, cheap to ask for again. */
class EditionRoutesTest extends RunningServer {

  private long revision(String book) throws Exception {
    return json(get("/api/books/" + book)).path("revision").asLong();
  }

  private void correct(String book, String correction) throws Exception {
    HttpResponse<String> made =
        post("/api/books/" + book + "/corrections", correction, revision(book));
    assertThat(made.statusCode()).as(made.body()).isEqualTo(200);
  }

  private String checkedBook() throws Exception {
    String book = readBook();
    for (int page = 1; page <= 2; page++) {
      correct(book, "{\"kind\":\"verify-page\",\"page\":" + page + ",\"verified\":true}");
    }
    return book;
  }

  private static String header(HttpResponse<?> response, String name) {
    return response.headers().firstValue(name).orElse("");
  }

  private HttpResponse<String> known(String path, String tag) throws Exception {
    return send(to(path).header("If-None-Match", tag));
  }

  @Test
  void anEditionIsTheSameForEver() throws Exception {
    String book = readBook();
    String editions = "/api/books/" + book + "/editions";
    assertProblem(get(editions + "/latest"), ApiError.NO_EDITION);
    assertProblem(get(editions + "/1"), ApiError.NO_EDITION);
    assertProblem(get("/api/books/nobody/editions/1"), ApiError.NO_BOOK);
    assertProblem(post(editions, "{}", revision(book)), ApiError.REFUSED);
    assertProblem(post(editions, "{}"), ApiError.NEEDS_REVISION);
    correct(book, "{\"kind\":\"verify-page\",\"page\":1,\"verified\":true}");
    correct(book, "{\"kind\":\"verify-page\",\"page\":2,\"verified\":true}");
    HttpResponse<String> first = get(editions + "/1");
    assertThat(first.statusCode()).isEqualTo(200);
    assertThat(header(first, "Cache-Control")).isEqualTo("private, max-age=31536000, immutable");
    BarMap map = BarMapJson.read(first.body());
    assertThat(map.bars()).hasSize(12);
    String bar = map.bars().get(0).id();
    correct(book, "{\"kind\":\"set-times\",\"bar\":\"" + bar + "\",\"times\":3}");
    HttpResponse<String> again = get(editions + "/1");
    assertThat(again.body()).isEqualTo(first.body());
    assertThat(header(again, "ETag")).isEqualTo(header(first, "ETag")).startsWith("\"");
    JsonNode list = json(get(editions));
    assertThat(list.path("correctionsSince").asInt()).isEqualTo(1);
    assertThat(list.path("checked").asBoolean()).isTrue();
    HttpResponse<String> made = post(editions, "{\"who\":\"Ada\"}", revision(book));
    assertThat(made.statusCode()).isEqualTo(201);
    assertThat(header(made, "Location")).isEqualTo(editions + "/2");
    assertThat(post(editions, "", revision(book)).statusCode()).isEqualTo(200);
    assertProblem(post(editions, "{}", 1), ApiError.STALE);
    JsonNode both = json(get(editions)).path("editions");
    assertThat(both.size()).isEqualTo(2);
    assertThat(both.path(0).path("who").asString()).isEqualTo("Ada");
    assertThat(get(editions + "/1").body()).isEqualTo(first.body());
    assertThat(get(editions + "/2").body()).contains("\"times\":3");
    assertProblem(get(editions + "/01"), ApiError.NO_EDITION);
    assertProblem(get(editions + "/99999999999999"), ApiError.NO_EDITION);
  }

  @Test
  void whoHasItIsNotSentItAgain() throws Exception {
    String book = checkedBook();
    String editions = "/api/books/" + book + "/editions";
    HttpResponse<String> latest = get(editions + "/latest");
    assertThat(header(latest, "Content-Location")).isEqualTo(editions + "/1");
    assertThat(header(latest, "Cache-Control")).isEqualTo("private, no-cache");
    String tag = header(latest, "ETag");
    for (String known : new String[] {tag, "W/" + tag, "\"other\", " + tag, "*"}) {
      HttpResponse<String> same = known(editions + "/latest", known);
      assertThat(same.statusCode()).isEqualTo(304);
      assertThat(same.body()).isEmpty();
      assertThat(header(same, "ETag")).isEqualTo(tag);
    }
    assertThat(known(editions + "/1", tag).statusCode()).isEqualTo(304);
    assertThat(known(editions + "/1", "\"other\"").statusCode()).isEqualTo(200);
    String bar = BarMapJson.read(latest.body()).bars().get(0).id();
    correct(book, "{\"kind\":\"set-times\",\"bar\":\"" + bar + "\",\"times\":3}");
    assertThat(known(editions + "/latest", tag).statusCode())
        .as("not yet published")
        .isEqualTo(304);
    post(editions, "{}", revision(book));
    assertThat(known(editions + "/latest", tag).statusCode()).isEqualTo(200);
    assertThat(known(editions + "/1", tag).statusCode()).isEqualTo(304);
  }

  @Test
  void itIsPackedForWhoTakesItSo() throws Exception {
    String book = checkedBook();
    String path = "/api/books/" + book + "/editions/1";
    String plain = get(path).body();
    HttpResponse<byte[]> packed =
        http.send(
            to(path).header("Accept-Encoding", "br, gzip").build(),
            HttpResponse.BodyHandlers.ofByteArray());
    assertThat(header(packed, "Content-Encoding")).isEqualTo("gzip");
    assertThat(packed.headers().allValues("Content-Encoding")).hasSize(1);
    assertThat(header(packed, "Content-Length")).isEqualTo(Integer.toString(packed.body().length));
    assertThat(header(packed, "Vary")).contains("Accept-Encoding");
    assertThat(new GZIPInputStream(new ByteArrayInputStream(packed.body())).readAllBytes())
        .asString()
        .isEqualTo(plain);
    assertThat(header(packed, "ETag")).isNotEqualTo(header(get(path), "ETag"));
    HttpRequest.Builder not = to(path).header("Accept-Encoding", "gzip;q=0");
    assertThat(send(not).body()).isEqualTo(plain);
    HttpRequest.Builder known =
        to(path).header("Accept-Encoding", "gzip").header("If-None-Match", header(packed, "ETag"));
    assertThat(send(known).statusCode()).isEqualTo(304);
  }

  @Test
  void whatChangedBetweenTwoIsToldAsCorrections() throws Exception {
    String book = checkedBook();
    String editions = "/api/books/" + book + "/editions";
    String bar = BarMapJson.read(get(editions + "/1").body()).bars().get(0).id();
    String correction = "{\"kind\":\"set-times\",\"bar\":\"" + bar + "\",\"times\":3}";
    correct(book, correction);
    post(editions, "{}", revision(book));
    HttpResponse<String> told = get(editions + "/2/changes?since=1");
    JsonNode change = json(told).path("changes").path(0);
    assertThat(change.path("correction")).isEqualTo(BarMapJson.mapper().readTree(correction));
    assertThat(change.path("says").asString()).endsWith(": played 3 times");
    assertThat(change.path("bar").asString()).isEqualTo(bar);
    assertThat(change.path("page").asInt()).isEqualTo(1);
    assertThat(json(told).path("changes").size()).isEqualTo(1);
    assertThat(get(editions + "/2/changes").body()).isEqualTo(told.body());
    assertThat(get(editions + "/latest/changes?since=1").body()).isEqualTo(told.body());
    assertThat(json(get(editions + "/2/changes?since=2")).path("changes").isEmpty()).isTrue();
    assertThat(known(editions + "/2/changes?since=1", header(told, "ETag")).statusCode())
        .isEqualTo(304);
    assertProblem(get(editions + "/1/changes?since=2"), ApiError.REFUSED);
    assertProblem(get(editions + "/1/changes"), ApiError.NO_EDITION);
    assertProblem(get(editions + "/2/changes?since=x"), ApiError.NO_EDITION);
    String back = "{\"kind\":\"set-times\",\"bar\":\"" + bar + "\"}";
    correct(book, back);
    post(editions, "{}", revision(book));
    assertThat(json(get(editions + "/3/changes?since=1")).path("changes").isEmpty()).isTrue();
  }

  @Test
  void editionsAreGoneWithTheBook() throws Exception {
    String book = checkedBook();
    send(to("/api/books/" + book).DELETE());
    assertProblem(get("/api/books/" + book + "/editions/1"), ApiError.NO_BOOK);
    send(to("/api/bin/" + book).DELETE());
    assertProblem(get("/api/books/" + book + "/editions/1"), ApiError.NO_BOOK);
  }
}
