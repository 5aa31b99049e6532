package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import org.barmap.web.RunningServer;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Another part beside a book, over HTTP. The books have bars 1 to 12 each, and no marks. */
class AlignRoutesTest extends RunningServer {

  @Override
  protected List<InetAddress> shareAt() throws IOException {
    return List.of(InetAddress.getByName("127.0.0.2"));
  }

  private long revision(String path) throws Exception {
    return json(get(path)).path("revision").asLong();
  }

  private String list(String book, String text) throws Exception {
    HttpResponse<String> made =
        post("/api/books/" + book + "/align/list", "{\"text\":\"" + text + "\"}");
    assertThat(made.statusCode()).isEqualTo(201);
    return json(made).path("id").asString();
  }

  private void change(String book, String change) throws Exception {
    String path = "/api/books/" + book + "/changes";
    assertThat(post(path, change, revision(path)).statusCode()).isLessThan(300);
  }

  @Test
  void aDirectorsListLiesBesideTheBookAndItsNumbersBesideTheChanges() throws Exception {
    String book = readBook();
    String align = "/api/books/" + book + "/align";
    assertThat(json(get(align)).has("other")).isFalse();

    // the made book is one number without a label; a list has labels, so nothing is in common
    String list = list(book, "7: A 5, end 16");
    JsonNode laid = json(put(align, "{\"book\":\"" + list + "\",\"pins\":[]}", revision(align)));
    assertThat(laid.path("table").path("onlyThere").path(0).asString()).isEqualTo("7");

    String other = readBook();
    change(book, "{\"id\":\"c1\",\"kind\":\"cut\",\"first\":\"3\",\"last\":\"5\"}");
    laid = json(put(align, "{\"book\":\"" + other + "\"}", revision(align)));
    assertThat(laid.path("table").path("numbers").path(0).path("same").asBoolean()).isTrue();
    assertThat(json(get(align + "?only=changes")).path("changes").toString())
        .as("what is called the same is not said again")
        .isEqualTo("{}");
    assertThat(json(get(align + "?only=changes")).has("table")).isFalse();
    assertThat(get("/api/books/" + book + "/export/cutlist").body()).contains("[Bass 3 to 5]");

    JsonNode carried = json(post(align + "/carry", "{\"to\":\"there\"}"));
    assertThat(carried.path("changes").path(0).path("first").asString()).isEqualTo("3");
    assertThat(json(post(align + "/carry", "{\"to\":\"here\"}")).path("changes").size()).isZero();
    String opened = "{\"format\":\"changes/1\",\"changes\":" + carried.path("changes") + "}";
    String changes = "/api/books/" + other + "/changes";
    assertThat(post(changes + "/open", opened, revision(changes)).statusCode()).isEqualTo(200);
    assertThat(json(post(align + "/carry", "{\"to\":\"here\"}")).path("changes").size()).isOne();
  }

  /** The other book's bars 1 to 12 are this one's; its bar 6 is said to be bar 4 here. */
  @Test
  void changesAreTypedInTheOtherPartsNumbers() throws Exception {
    String book = readBook();
    String understand = "/api/books/" + book + "/changes/understand";
    String theirs = "{\"text\":\"cut 6\",\"numbers\":\"other\"}";
    assertProblem(post(understand, theirs), ApiError.REFUSED);
    assertProblem(post(understand, theirs.replace("other", "any")), ApiError.BAD_REQUEST);
    String align = "/api/books/" + book + "/align";
    String pin = "{\"number\":\"\",\"here\":\"4\",\"there\":\"6\"}";
    put(align, "{\"book\":\"" + readBook() + "\",\"pins\":[" + pin + "]}", revision(align));

    JsonNode line = json(post(understand, theirs)).path("lines").path(0);
    assertThat(line.path("understood").path("first").asString()).isEqualTo("4");
    assertThat(line.path("says").asString()).isEqualTo("cut 4 [Bass 6]");
    String mine = "{\"text\":\"cut 4\",\"numbers\":\"mine\"}";
    line = json(post(understand, mine)).path("lines").path(0);
    assertThat(line.path("understood").path("first").asString()).isEqualTo("4");
    assertThat(line.path("says").asString()).contains("[Bass 6]");
    line = json(post(understand, theirs.replace("cut 6", "cut 2 to 6"))).path("lines").path(0);
    assertThat(line.path("asks").asString()).contains("not sure");
  }

  @Test
  void whatAPersonNamedIsKeptAndCanBeTakenBack() throws Exception {
    String book = readBook();
    String other = readBook();
    String align = "/api/books/" + book + "/align";
    String pinned =
        "{\"book\":\"" + other + "\",\"pins\":[{\"number\":\"\",\"here\":\"4\",\"there\":\"6\"}]}";
    JsonNode laid = json(put(align, pinned, revision(align)));
    assertThat(laid.path("pins").size()).isOne();
    change(book, "{\"id\":\"c2\",\"kind\":\"cut\",\"first\":\"4\",\"last\":\"4\"}");
    assertThat(json(get(align + "?only=changes")).path("changes").toString()).contains(":\"6\"}");
    assertThat(laid.path("table").path("numbers").path(0).path("same").asBoolean()).isFalse();
    assertProblem(
        put(
            align,
            pinned
                .replace("\"4\"", "\"99\"")
                .replace("]}", ",{\"number\":\"\",\"here\":\"1\",\"there\":\"1\"}]}"),
            revision(align)),
        ApiError.REFUSED);

    // the settings a page keeps don't take it away
    String settings = "/api/books/" + book + "/settings";
    JsonNode now = json(get(settings));
    assertThat(
            put(
                    settings,
                    now.toString()
                        .replace("\"memoryBars\":4", "\"memoryBars\":5")
                        .replace(other, "another"),
                    revision(align))
                .statusCode())
        .isEqualTo(200);
    assertThat(json(get(align)).path("pins").path(0).path("there").asString()).isEqualTo("6");

    assertThat(send(to("/api/books/" + other).DELETE()).statusCode()).isLessThan(300);
    assertThat(json(get(align)).path("gone").asBoolean()).isTrue();
    assertProblem(post(align + "/carry", "{\"to\":\"there\"}"), ApiError.NOT_FOUND);
    HttpResponse<String> removed =
        send(to(align).header("If-Match", "\"" + revision(align) + "\"").DELETE());
    assertThat(removed.statusCode()).isEqualTo(200);
    assertThat(json(get(align)).has("gone")).isFalse();
  }

  @Test
  void aKeyOfOneBookOpensNoOther() throws Exception {
    String book = readBook();
    String other = readBook();
    String align = "/api/books/" + book + "/align";
    String key = key(book, "owner");
    HttpRequest.Builder asked =
        withoutKey(align)
            .header("Authorization", "Bearer " + key)
            .header("If-Match", "\"" + revision(align) + "\"")
            .PUT(HttpRequest.BodyPublishers.ofString("{\"book\":\"" + other + "\"}"));
    assertProblem(send(asked), ApiError.NOT_YOURS);
    assertProblem(put(align, "{\"book\":\"" + book + "\"}", revision(align)), ApiError.NO_BOOK);
    assertProblem(put(align, "{\"book\":\"none\"}", revision(align)), ApiError.NO_BOOK);
    assertProblem(
        put(align, "{\"book\":\"" + other + "\",\"pins\":[1]}", revision(align)),
        ApiError.BAD_REQUEST);
    assertProblem(post(align + "/list", "{\"text\":\"nothing\"}"), ApiError.REFUSED);
    assertProblem(post(align + "/carry", "{\"to\":\"x\"}"), ApiError.BAD_REQUEST);
  }

  /** A page that shows only what is let in goes by this. */
  @Test
  void whoAsksIsToldWhatTheyMayDo() throws Exception {
    String book = readBook();
    String align = "/api/books/" + book + "/align";
    assertThat(json(get(align)).path("may").asString()).isEqualTo("choose");
    String owner = key(book, "owner");
    String corrector = key(book, "corrector");
    assertThat(may(align, owner)).isEqualTo("name");
    assertThat(may(align, corrector)).isEqualTo("look");
    assertThat(may(align + "?only=changes", key(book, "reader"))).isEqualTo("look");
  }

  private String may(String path, String key) throws Exception {
    return json(send(withoutKey(path).header("Authorization", "Bearer " + key).GET()))
        .path("may")
        .asString();
  }

  private String key(String book, String as) throws Exception {
    JsonNode open =
        json(post("/api/books/" + book + "/share", "{\"as\":\"" + as + "\"}")).path("open");
    String link = open.path(open.size() - 1).path("links").path(0).asString();
    return link.substring(link.indexOf('=') + 1);
  }
}
