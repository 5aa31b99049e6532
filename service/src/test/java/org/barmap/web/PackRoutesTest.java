package org.barmap.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import org.barmap.web.api.ApiError;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** A book in one file: out of one shelf and onto another, and what is no such file. */
class PackRoutesTest extends RunningServer {

  private byte[] packed(String book, String query) throws Exception {
    HttpResponse<byte[]> answer =
        http.send(
            to("/api/books/" + book + "/pack" + query).build(),
            HttpResponse.BodyHandlers.ofByteArray());
    assertThat(answer.statusCode()).isEqualTo(200);
    return answer.body();
  }

  private HttpResponse<String> open(String name, byte[] file) throws Exception {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    String head =
        "--xx\r\nContent-Disposition: form-data; name=\"files\"; filename=\""
            + name
            + "\"\r\nContent-Type: application/octet-stream\r\n\r\n";
    body.write(head.getBytes(StandardCharsets.UTF_8));
    body.write(file);
    body.write("\r\n--xx--\r\n".getBytes(StandardCharsets.UTF_8));
    return send(
        to("/api/books/open")
            .header("Content-Type", "multipart/form-data; boundary=xx")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  private static Map<String, byte[]> entries(byte[] zip) throws IOException {
    Map<String, byte[]> entries = new LinkedHashMap<>();
    try (ZipInputStream in = new ZipInputStream(new ByteArrayInputStream(zip))) {
      for (ZipEntry e = in.getNextEntry(); e != null; e = in.getNextEntry()) {
        entries.put(e.getName(), in.readAllBytes());
      }
    }
    return entries;
  }

  private static byte[] zip(Map<String, byte[]> entries) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipOutputStream out = new ZipOutputStream(bytes)) {
      for (Map.Entry<String, byte[]> e : entries.entrySet()) {
        out.putNextEntry(new ZipEntry(e.getKey()));
        out.write(e.getValue());
      }
    }
    return bytes.toByteArray();
  }

  private String change(String book) throws Exception {
    String path = "/api/books/" + book + "/changes";
    String change =
        "{\"number\":\"1\",\"kind\":\"note\",\"text\":\"ask about the ending\",\"who\":\"Ann\"}";
    HttpResponse<String> made = post(path, change, json(get(path)).path("revision").asLong());
    assertThat(made.statusCode()).as(made.body()).isEqualTo(201);
    return path;
  }

  /** Puts other words into the settings of a pack. */
  private static byte[] said(byte[] pack, String from, String to) throws Exception {
    String text = new String(entries(pack).get("settings.json"), StandardCharsets.UTF_8);
    assertThat(text).contains(from);
    return with(
        pack, "settings.json", text.replace(from, to).getBytes(StandardCharsets.UTF_8), true);
  }

  /** The director's book is not in the pack: on its own shelf it lies beside it again. */
  @Test
  void whatLiesBesideABookIsNamedInItsPack() throws Exception {
    String book = readBook();
    String director = readBook();
    String align = "/api/books/" + book + "/align";
    String pin = "{\"number\":\"\",\"here\":\"4\",\"there\":\"6\"}";
    send(
        to(align)
            .header("If-Match", revision(align))
            .PUT(
                HttpRequest.BodyPublishers.ofString(
                    "{\"book\":\"" + director + "\",\"pins\":[" + pin + "]}")));
    byte[] file = packed(book, "");
    JsonNode here =
        json(get("/api/books/" + json(open("a.zip", file)).path("id").asString() + "/align"));
    assertThat(here.path("other").path("id").asString()).isEqualTo(director);
    assertThat(here.path("pins").path(0).path("there").asString()).isEqualTo("6");

    byte[] away = said(file, director, "elsewhere");
    String opened = json(open("b.zip", away)).path("id").asString();
    JsonNode there = json(get("/api/books/" + opened + "/align"));
    assertThat(there.path("gone").asBoolean()).isTrue();
    assertThat(there.path("called").asString()).isEqualTo("Saltmarsh, Bass");
    assertThat(there.path("pins").size()).isOne();
    assertThat(json(get("/api/books/" + opened + "/plan")).path("numbers").size()).isPositive();

    byte[] hostile = said(file, director, "x".repeat(500));
    assertProblem(open("c.zip", hostile), ApiError.REFUSED);
  }

  private String revision(String path) throws Exception {
    return get(path).headers().firstValue("ETag").orElseThrow();
  }

  @Test
  void whatWasPackedIsTheSameOnAnotherShelf() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    change(book);
    send(
        to(path + "/settings")
            .header("If-Match", revision(path + "/settings"))
            .PUT(HttpRequest.BodyPublishers.ofString("{\"memoryBars\":7,\"firstPage\":\"left\"}")));
    byte[] file = packed(book, "?pictures=true");
    HttpResponse<String> opened = open("saltmarsh.barpack.zip", file);
    assertThat(opened.statusCode()).as(opened.body()).isEqualTo(201);
    String other = "/api/books/" + json(opened).path("id").asString();
    assertThat(other).isNotEqualTo(path);
    assertThat(get(other + "/plan").body()).isEqualTo(get(path + "/plan").body());
    assertThat(get(other + "/export/map").body()).isEqualTo(get(path + "/export/map").body());
    assertThat(json(get(other + "/changes")).path("changes"))
        .isEqualTo(json(get(path + "/changes")).path("changes"));
    assertThat(get(other + "/settings").body()).isEqualTo(get(path + "/settings").body());
    JsonNode page = json(get(other)).path("pages").path(1);
    assertThat(page.path("state").asString()).isEqualTo("read");
    assertThat(get(other + "/pages/" + page.path("id").asString() + "/image").statusCode())
        .isEqualTo(200);
    System.out.println("packed: a book of two pages has " + file.length + " bytes");
  }

  @Test
  void picturesGoAlongOnlyWhereTheyAreAskedFor() throws Exception {
    String book = readBook();
    Map<String, byte[]> without = entries(packed(book, ""));
    assertThat(without.keySet()).noneMatch(name -> name.startsWith("pages/"));
    assertThat(entries(packed(book, "?pictures=true")).keySet()).anyMatch("pages/001"::equals);
    HttpResponse<String> opened = open("a.zip", packed(book, ""));
    assertThat(opened.statusCode()).isEqualTo(201);
    String other = "/api/books/" + json(opened).path("id").asString();
    assertThat(json(get(other)).path("bars").asInt()).isEqualTo(12);
    String page = json(get(other)).path("pages").path(0).path("id").asString();
    assertProblem(get(other + "/pages/" + page + "/image"), ApiError.NO_PICTURE);
  }

  @Test
  void aBarMapAndAListOfChangesAreOpenedTheSameWay() throws Exception {
    String book = readBook();
    String path = "/api/books/" + book;
    change(book);
    byte[] map = get(path + "/export/map").body().getBytes(StandardCharsets.UTF_8);
    HttpResponse<String> opened = open("saltmarsh.barmap.json", map);
    assertThat(opened.statusCode()).as(opened.body()).isEqualTo(201);
    String other = "/api/books/" + json(opened).path("id").asString();
    assertThat(get(other + "/export/map").body()).isEqualTo(get(path + "/export/map").body());
    String changes = get(path + "/export/changes").body();
    HttpResponse<String> taken =
        send(
            to(other + "/changes/open")
                .header("If-Match", revision(other + "/changes"))
                .POST(HttpRequest.BodyPublishers.ofString(changes)));
    assertThat(taken.statusCode()).as(taken.body()).isEqualTo(200);
    assertThat(json(get(other + "/changes")).path("changes")).hasSize(1);
    HttpResponse<String> wrong =
        send(
            to(other + "/changes/open")
                .header("If-Match", revision(other + "/changes"))
                .POST(
                    HttpRequest.BodyPublishers.ofString(
                        changes.replace("\"note\"", "\"nothing\""))));
    assertProblem(wrong, ApiError.REFUSED);
    assertThat(json(get(other + "/changes")).path("changes")).hasSize(1);
  }

  /** Whatever is wrong with a file: it is said, and the shelf is as it was. */
  @Test
  void whatIsNoWholePackIsRefusedAndNothingIsStored() throws Exception {
    byte[] good = packed(readBook(), "?pictures=true");
    int shelf = json(get("/api/books")).path("books").size();
    refused("half", Arrays.copyOf(good, good.length / 2), "only part of one");
    refused("nothing", new byte[0], "");
    refused("text", "hello".getBytes(StandardCharsets.UTF_8), "");
    refused("json", "{\"format\":\"other/1\"}".getBytes(StandardCharsets.UTF_8), "bar map");
    refused("bytes", new byte[] {(byte) 0xff, (byte) 0xfe, 1}, "neither");
    refused("zip", zip(Map.of("a.txt", new byte[3])), "manifest.json");

    refused("way out", with(good, "../../../etc/cron.d/x", new byte[3], true), "manifest");
    refused("unnamed", with(good, "more.txt", new byte[3], false), "doesn't name");
    refused("other bytes", with(good, "changes.json", new byte[3], false), "");
    refused("bomb", with(good, "readings/001.json", new byte[300 << 20], false), "more than");
    refused(
        "map",
        with(
            good,
            "map.barmap.json",
            "{\"format\":\"barmap/1\"}".getBytes(StandardCharsets.UTF_8),
            true),
        "bar map");
    refused(
        "changes",
        with(good, "changes.json", "[]".getBytes(StandardCharsets.UTF_8), true),
        "changes");
    refused(
        "settings",
        with(good, "settings.json", "{\"memoryBars\":99}".getBytes(StandardCharsets.UTF_8), true),
        "");
    refused(
        "picture",
        with(good, "pages/001", "MZ program".getBytes(StandardCharsets.UTF_8), true),
        "no picture");
    refused(
        "reading",
        with(good, "readings/001.json", "{".getBytes(StandardCharsets.UTF_8), true),
        "no JSON");
    assertThat(json(get("/api/books")).path("books")).hasSize(shelf);
    assertThat(json(get("/api/bin")).path("books")).isEmpty();
  }

  private void refused(String what, byte[] file, String why) throws Exception {
    HttpResponse<String> answer = open(what + ".zip", file);
    assertThat(answer.body()).as(what).contains(why);
    assertProblem(answer, ApiError.REFUSED);
  }

  /** Changes an entry or adds one; the manifest tells the truth about it, or not. */
  private static byte[] with(byte[] good, String name, byte[] bytes, boolean said)
      throws Exception {
    Map<String, byte[]> entries = entries(good);
    entries.put(name, bytes);
    if (said) {
      String manifest = new String(entries.get("manifest.json"), StandardCharsets.UTF_8);
      String hash = HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
      String line =
          "{\"name\":\"%s\",\"format\":\"%s\",\"bytes\":%d,\"sha256\":\"%s\"}"
              .formatted(
                  name, name.startsWith("pages/") ? "picture" : "reading", bytes.length, hash);
      String others =
          manifest.replaceAll("\\{[^{}]*\"" + name + "\"[^{}]*\"sha256\"[^{}]*\\},?", "");
      entries.put(
          "manifest.json",
          others
              .replaceFirst("(\"files\"\\s*:\\s*\\[)", "$1" + line + ",")
              .getBytes(StandardCharsets.UTF_8));
    }
    return zip(entries);
  }

  /**
   * What a section mate sent is read back before it is taken, and what is there already is said.
   */
  @Test
  void aFileOfChangesIsReadBackAndNothingIsStored() throws Exception {
    String book = "/api/books/" + readBook();
    String one = "{\"id\":\"c1\",\"kind\":\"cut\",\"number\":\"1\",\"first\":\"2\",\"last\":\"3\"}";
    String two = "{\"id\":\"c2\",\"kind\":\"note\",\"number\":\"1\",\"text\":\"bow near\"}";
    assertThat(post(book + "/changes", one, 0).statusCode()).isEqualTo(201);
    String file = "{\"format\":\"changes/1\",\"changes\":[" + one + "," + two + "]}";
    HttpResponse<String> told = post(book + "/changes/read", file);
    assertThat(told.statusCode()).as(told.body()).isEqualTo(200);
    JsonNode changes = json(told).path("changes");
    assertThat(changes.path(0).path("says").asString()).isEqualTo("No. 1: cut 2 to 3");
    assertThat(changes.path(0).path("here").asBoolean()).isTrue();
    assertThat(changes.path(1).path("here").asBoolean()).isFalse();
    assertThat(json(get(book + "/changes")).path("changes")).hasSize(1);
    assertProblem(post(book + "/changes/read", "{\"format\":\"other\"}"), ApiError.REFUSED);
  }
}
