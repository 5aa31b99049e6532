package org.barmap.web.feed;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.barmap.map.json.BarMapJson;
import org.barmap.web.RunningServer;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Editions go along in a packed book, under their numbers. */
class EditionPackTest extends RunningServer {

  private void correct(String book, String correction) throws Exception {
    long revision = json(get("/api/books/" + book)).path("revision").asLong();
    assertThat(post("/api/books/" + book + "/corrections", correction, revision).statusCode())
        .isEqualTo(200);
  }

  private HttpResponse<String> open(byte[] pack) throws Exception {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.write(
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\"a.barpack\"\r\n\r\n"
            .getBytes(StandardCharsets.UTF_8));
    body.write(pack);
    body.write("\r\n--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    return send(
        to("/api/books/open")
            .header("Content-Type", "multipart/form-data; boundary=xx")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  private byte[] packed(String book) throws Exception {
    return http.send(
            to("/api/books/" + book + "/pack").build(), HttpResponse.BodyHandlers.ofByteArray())
        .body();
  }

  private String checkedTwice() throws Exception {
    String book = readBook();
    for (int page = 1; page <= 2; page++) {
      correct(book, "{\"kind\":\"verify-page\",\"page\":" + page + ",\"verified\":true}");
    }
    String first = get("/api/books/" + book + "/editions/1").body();
    String bar = BarMapJson.read(first).bars().get(0).id();
    correct(book, "{\"kind\":\"set-times\",\"bar\":\"" + bar + "\",\"times\":3}");
    long revision = json(get("/api/books/" + book)).path("revision").asLong();
    assertThat(post("/api/books/" + book + "/editions", "{\"who\":\"Ada\"}", revision).statusCode())
        .isEqualTo(201);
    return book;
  }

  @Test
  void editionsComeAlongAndAreTheSame() throws Exception {
    String book = checkedTwice();
    HttpResponse<String> opened = open(packed(book));
    assertThat(opened.statusCode()).as(opened.body()).isEqualTo(201);
    String other = json(opened).path("id").asString();
    assertThat(other).isNotEqualTo(book);
    JsonNode list = json(get("/api/books/" + other + "/editions"));
    assertThat(list.path("changedSince").asBoolean()).isFalse();
    assertThat(list.path("correctionsSince").asInt()).isZero();
    assertThat(list.path("editions").path(0).path("who").asString()).isEqualTo("Ada");
    for (int number = 1; number <= 2; number++) {
      HttpResponse<String> own = get("/api/books/" + book + "/editions/" + number);
      HttpResponse<String> taken = get("/api/books/" + other + "/editions/" + number);
      assertThat(taken.body()).isEqualTo(own.body());
      assertThat(taken.headers().firstValue("ETag")).isEqualTo(own.headers().firstValue("ETag"));
    }
  }

  @Test
  void twoOfOneNumberOrABrokenOneAreRefusedWhole() throws Exception {
    byte[] pack = packed(checkedTwice());
    int before = json(get("/api/books")).path("books").size();
    byte[] twice = changed(pack, "manifest.json", "\"number\" : 1,", "\"number\" : 2,");
    assertThat(open(twice).body()).contains("two editions of one number");
    byte[] broken = changed(pack, "editions/1.barmap.json", "\"bars\"", "\"bers\"");
    assertThat(open(broken).body()).contains("not as it was packed");
    assertThat(json(get("/api/books")).path("books").size()).isEqualTo(before);
  }

  private static byte[] changed(byte[] pack, String entry, String from, String to)
      throws Exception {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(pack));
        ZipOutputStream zip = new ZipOutputStream(out)) {
      for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
        String text = new String(in.readAllBytes(), StandardCharsets.ISO_8859_1);
        if (e.getName().equals(entry)) {
          assertThat(text).contains(from);
          text = text.replace(from, to);
        }
        zip.putNextEntry(new ZipEntry(e.getName()));
        zip.write(text.getBytes(StandardCharsets.ISO_8859_1));
      }
    }
    return out.toByteArray();
  }
}
